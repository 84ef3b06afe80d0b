// Runs vitest on the folder named and ends with a line that other tools can count: "N passed, N failed".
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const folder = mkdtempSync(join(tmpdir(), "strikewright-tests-"));
const report = join(folder, "report.json");
const run = spawnSync(
  process.execPath,
  [
    fileURLToPath(new URL("../node_modules/vitest/vitest.mjs", import.meta.url)),
    "run",
    ...process.argv.slice(2),
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${report}`,
  ],
  { stdio: "inherit" },
);
let passed = 0;
let failed = 0;
try {
  const counted = JSON.parse(readFileSync(report, "utf8"));
  passed = counted.numPassedTests;
  // A file that does not even load has no tests of its own, but is a failure all the same.
  failed = counted.numFailedTests + counted.testResults.filter((f) => f.status === "failed" && !f.assertionResults.length).length;
} catch {
  failed = 1;
}
rmSync(folder, { recursive: true, force: true });
if (run.status !== 0 && failed === 0) failed = 1;
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed || !passed ? 1 : 0);
