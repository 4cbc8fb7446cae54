// The list of acts names the setting that an act changed: for every key that the program saves one under, read from its own text.
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { loneAbout } from '#today/acts/lone-about.ts'
import { freshBooks } from '../db/fresh-books.ts'

/** Keys as written in the files that save a setting; that of a side's form follows the side. */
const keys = (): string[] => {
  const root = join(import.meta.dirname, '../../src')
  const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  )
  return files.flatMap((name) => {
    const text = readFileSync(join(root, name), 'utf8')
    if (!/etSettingAs\(|riteSetting\(|eadSettingAs\(/.test(text)) return []
    return [...text.matchAll(/^(?:export )?const (?:key|\w+Key|\w+Setting) = '([^']+)'/gm)].map(
      ([, key]) => key!,
    )
  })
}

test('each setting is named, with the page on which it is set', () => {
  const books = freshBooks()
  const all = [...keys(), 'schedule-f', 'schedule-c repair']
  expect(all.length).toBeGreaterThan(10)
  for (const subject of all)
    expect(loneAbout(books, { kind: 'setting.saved', subject })?.says, subject).toMatch(/^[A-Z]/)
})
