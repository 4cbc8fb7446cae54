// How wide a text of a chart will be: the server draws for fonts it does not know, so it counts with the widest of the list.

/** Advance widths of DejaVu Sans in thousandths of its size, as its font file has them; what is not listed counts as a wide letter. */
const advances: Readonly<Record<string, number>> = Object.fromEntries(
  (
    [
      [' .,;:’', 337],
      ['ijlI|', 295],
      ['f()[]-', 390],
      ['rt', 411],
      ['sJ', 521],
      ['cz/', 550],
      ['kvxy', 592],
      ['aoeLFT', 616],
      ['0123456789bdghnpqu$PYZE', 636],
      ['ABVXKRSC', 699],
      ['+=−<>×→', 838],
      ['DGHNUO', 788],
    ] as const
  ).flatMap(([letters, width]) => [...letters].map((letter) => [letter, width])),
)
const wide = 990

/** The size of all text in charts, px. */
export const textSize = 13
/** From one row of text to the next, px: no less than the box that a browser gives a row. */
export const rowHeight = 16

/** In px; what is bold is about a tenth wider. */
export function widthOf(text: string, isBold = false): number {
  let thousandths = 0
  for (const letter of text) thousandths += advances[letter] ?? wide
  return (thousandths / 1000) * textSize * (isBold ? 1.12 : 1)
}

/** A name of several words stands in two rows of about the same length; one of few letters in one. */
export function inRows(name: string, longest = 9): string[] {
  const words = name.split(' ')
  if (name.length <= longest || words.length < 2) return [name]
  const half = name.length / 2
  let first = words[0]!
  let taken = 1
  while (taken < words.length - 1 && first.length + words[taken]!.length / 2 < half) {
    first += ` ${words[taken]}`
    taken += 1
  }
  return [first, words.slice(taken).join(' ')]
}

/** What of a text has room, with a sign where it was cut. */
export function cutTo(text: string, room: number, isBold = false): string {
  if (widthOf(text, isBold) <= room) return text
  let kept = text
  while (kept !== '' && widthOf(`${kept}…`, isBold) > room) kept = kept.slice(0, -1)
  return `${kept.trimEnd()}…`
}
