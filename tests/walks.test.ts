// The two walks that DEVELOPERS.md leads along: as short as they are said to be, and each file reached by the name beside it.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const root = new URL('..', import.meta.url)
const guide = readFileSync(new URL('DEVELOPERS.md', root), 'utf8')

const walkUnder = (heading: string) => {
  const section = guide.split(`\n## ${heading}\n`)[1]!.split('\n## ')[0]!
  return [...section.matchAll(/^\| `([^`]+)` +\| `([^`]+)`/gm)].map(([, file, name]) => ({
    file: file!,
    name: name!,
    text: readFileSync(new URL(file!, root), 'utf8'),
  }))
}

const handsOn = (text: string, name: string) =>
  new RegExp(`(?<![\\w$])${name.replaceAll('/', '\\/')}(?![\\w$])`).test(text)

test.for([
  { heading: 'One amount, from a statement line to Now', most: 14 },
  { heading: 'One lever, from the form to the chart', most: 12 },
])('$heading: at most $most files', ({ heading, most }) => {
  const walk = walkUnder(heading)
  expect(walk.length).toBeGreaterThan(most - 3)
  expect(walk.length).toBeLessThanOrEqual(most)
  const lost = walk.filter(
    ({ file, name, text }) =>
      !handsOn(text, name) || !walk.some((other) => other.file !== file && handsOn(other.text, name)),
  )
  expect(lost.map(({ file, name }) => `${file}: ${name}`)).toEqual([])
})
