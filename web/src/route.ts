// Which screen is open: the part of the address after #.

export type Place =
  | { screen: "pupils" }
  | { screen: "add" }
  | { screen: "pupil"; id: string }
  | { screen: "edit"; id: string }
  | { screen: "lesson"; id: string }
  | { screen: "import"; id: string }
  | { screen: "flail"; lesson: string | null }
  | { screen: "settings" };

export function placeOf(hash: string): Place {
  const [first, second, third] = hash.replace(/^#\/?/, "").split("/");
  const id = second && /^[a-z0-9-]{1,40}$/.test(second) ? second : "";
  if (first === "pupil" && id) return third === "edit" ? { screen: "edit", id } : { screen: "pupil", id };
  if (first === "lesson" && id) return third === "import" ? { screen: "import", id } : { screen: "lesson", id };
  if (first === "flail") return { screen: "flail", lesson: id || null };
  if (first === "add") return { screen: "add" };
  if (first === "settings") return { screen: "settings" };
  return { screen: "pupils" };
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
      return `#/lesson/${place.id}/import`;
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
