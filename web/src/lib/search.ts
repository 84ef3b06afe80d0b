// Finding by words.

const plainLetters = (text: string): string => text.toLocaleLowerCase().normalize("NFD").replace(/\p{M}/gu, "");

/** Is every word of `asked` the beginning of a word in one of the texts? Case and accents aside; nothing asked: yes. */
export function matches(asked: string, texts: string[]): boolean {
  const words = plainLetters(texts.join(" ")).split(/[^\p{L}\p{N}]+/u);
  return plainLetters(asked)
    .split(/[^\p{L}\p{N}]+/u)
    .every((one) => words.some((word) => word.startsWith(one)));
}
