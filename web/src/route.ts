// Which screen is open: the part of the address after #.

export type Place =
  | { screen: "pupils" }
  | { screen: "add" }
  | { screen: "pupil"; id: string }
  | { screen: "edit"; id: string }
  | { screen: "lesson"; id: string }
  | { screen: "import"; id: string }
  | { screen: "exercises"; id: string }
  | { screen: "exercise"; id: string; name: string }
  | { screen: "write"; id: string; from: string }
  | { screen: "change"; id: string; name: string }
  | { screen: "sheet"; id: string }
  | { screen: "given"; id: string }
  | { screen: "flail"; lesson: string | null }
  | { screen: "settings" };

export function placeOf(hash: string): Place {
  const [first, second, third, fourth] = hash.replace(/^#\/?/, "").split("/");
  const id = second && /^[a-z0-9-]{1,40}$/.test(second) ? second : "";
  if (first === "pupil" && id) return third === "edit" ? { screen: "edit", id } : { screen: "pupil", id };
  if (first === "lesson" && id) return placeInLesson(id, third, fourth);
  if (first === "given" && id) return { screen: "given", id };
  if (first === "flail") return { screen: "flail", lesson: id || null };
  if (first === "add") return { screen: "add" };
  if (first === "settings") return { screen: "settings" };
  return { screen: "pupils" };
}

function placeInLesson(id: string, what = "", name = ""): Place {
  if (what === "import" || what === "sheet") return { screen: what, id };
  const named = /^[a-z0-9_-]{1,60}$/.test(name);
  if (what === "exercises") return named ? { screen: "exercise", id, name } : { screen: "exercises", id };
  if (what === "write") return { screen: "write", id, from: named ? name : "" };
  if (what === "change" && named) return { screen: "change", id, name };
  return { screen: "lesson", id };
}

export function hashOf(place: Place): string {
  switch (place.screen) {
    case "pupil":
      return `#/pupil/${place.id}`;
    case "edit":
      return `#/pupil/${place.id}/edit`;
    case "lesson":
      return `#/lesson/${place.id}`;
    case "import":
    case "sheet":
    case "exercises":
      return `#/lesson/${place.id}/${place.screen}`;
    case "exercise":
      return `#/lesson/${place.id}/exercises/${place.name}`;
    case "write":
      return place.from ? `#/lesson/${place.id}/write/${place.from}` : `#/lesson/${place.id}/write`;
    case "change":
      return `#/lesson/${place.id}/change/${place.name}`;
    case "given":
      return `#/given/${place.id}`;
    case "flail":
      return place.lesson ? `#/flail/${place.lesson}` : "#/flail";
    case "pupils":
      return "#/";
    default:
      return `#/${place.screen}`;
  }
}

export function go(place: Place): void {
  location.hash = hashOf(place);
}
