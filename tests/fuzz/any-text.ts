// Text of any characters, as `fc.string({ unit: 'binary' })` draws it: that one first writes a table of all 1,112,064 of them.
import fc from 'fast-check'

/** No halves of surrogate pairs: these stand by themselves among the awkward texts. */
const surrogates = { from: 0xd800, count: 0x800 }
const characters = 0x110000 - surrogates.count

const characterAt = (place: number): string =>
  String.fromCodePoint(place < surrogates.from ? place : place + surrogates.count)

/** Fast-check asks this of the strings it knows as dangerous, so that it can put them in between. */
const placeOf = (value: unknown): number => {
  const point = typeof value === 'string' ? value.codePointAt(0) : undefined
  if (point === undefined) throw new TypeError('no character')
  const place = point < surrogates.from ? point : point - surrogates.count
  if (place < 0 || place >= characters || characterAt(place) !== value) throw new TypeError('no character')
  return place
}

const character = fc.nat(characters - 1).map(characterAt, placeOf)

export const anyText = (maxLength: number): fc.Arbitrary<string> => fc.string({ maxLength, unit: character })
