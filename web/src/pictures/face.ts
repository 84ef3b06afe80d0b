// The clubface's outline for drawing, toe to the left (a right-hander's, from the front); screen x = −toe, y = −up.

import type { FaceBlade } from "../contract.ts";

export const usualBlade: FaceBlade = { length_mm: 78, height_mm: 52, grooves: 11, first_groove_mm: 7, groove_spacing_mm: 3.6 };
export const usualWood: FaceBlade = { length_mm: 104, height_mm: 56, grooves: 0, first_groove_mm: 0, groove_spacing_mm: 0 };

export const isWood = (club: string): boolean => /driver|wood|^[0-9]+w$|hybrid|^[0-9]+h$/.test(club);

export const bladeOf = (club: string): FaceBlade => (isWood(club) ? usualWood : usualBlade);

/** Outline of the hitting side as an SVG path. */
export function outline(blade: FaceBlade, wood: boolean): string {
  const half = blade.length_mm / 2;
  const top = blade.height_mm;
  if (wood) {
    return `M ${-half} ${-0.42 * top} C ${-half} ${-1.06 * top} ${-0.2 * half} ${-1.12 * top} ${0.25 * half} ${-0.98 * top} C ${0.85 * half} ${-0.82 * top} ${half} ${-0.6 * top} ${half} ${-0.42 * top} C ${0.95 * half} ${-0.06 * top} ${0.5 * half} 0 0 0 C ${-0.6 * half} 0 ${-half} ${-0.08 * top} ${-half} ${-0.42 * top} Z`;
  }
  return `M ${0.86 * half} -3 C ${0.4 * half} 1 ${-0.4 * half} 1 ${-0.78 * half} -2 C ${-1.02 * half} -6 ${-1.08 * half} ${-0.55 * top} ${-1.02 * half} ${-0.84 * top} C ${-0.98 * half} ${-1.02 * top} ${-0.86 * half} ${-1.05 * top} ${-0.7 * half} ${-0.98 * top} L ${0.82 * half} ${-0.56 * top} L ${1.08 * half} ${-1.1 * top} L ${1.36 * half} ${-1.02 * top} L ${1.1 * half} ${-0.36 * top} C ${1.06 * half} -10 ${half} -5 ${0.86 * half} -3 Z`;
}

/** Groove lines that lie inside the outline: [from, to, height], millimetres. */
export function grooves(blade: FaceBlade): [number, number, number][] {
  const half = blade.length_mm / 2;
  const lines: [number, number, number][] = [];
  for (let k = 0; k < blade.grooves; ++k) {
    const up = blade.first_groove_mm + k * blade.groove_spacing_mm;
    // The top line falls toward the heel: screen x of the heel end where it cuts this height.
    const heel = half * Math.min(0.68, (0.98 - up / blade.height_mm) / 0.28 - 0.75);
    if (heel > -0.5 * half && up < 0.94 * blade.height_mm) lines.push([-0.68 * half, heel, up]);
  }
  return lines;
}
