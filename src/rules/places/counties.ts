// A state's counties, the rating area of each, and which poverty guidelines hold there.
import type { Region } from '../filing-status.ts'
import { countiesTable } from './published.ts'

/** Where a household lives: two letters, and the county as the state calls it. */
export interface Place {
  state?: string | undefined
  county?: string | undefined
}

export const countiesOf = (state: string): string[] =>
  Object.values(countiesTable().areas[state] ?? {})
    .flat()
    .sort((a, b) => a.localeCompare(b, 'en'))

/** The county as published, found whatever the capitals and accents and without the word County; null where the state has none such. */
export const countyNamed = (state: string, typed: string): string | null =>
  countiesOf(state).find((county) => plain(county) === plain(typed)) ?? null

/** The marketplace rating area; null where no county is named. */
export const ratingAreaOf = ({ state, county }: Place): number | null => {
  if (state === undefined || county === undefined) return null
  const found = Object.entries(countiesTable().areas[state] ?? {}).find(([, names]) =>
    names.some((name) => plain(name) === plain(county)),
  )
  return found ? Number(found[0]) : null
}

/** Alaska and Hawaii have poverty guidelines of their own (HHS, each January). */
export const regionOf = (state: string): Region =>
  state === 'AK' ? 'alaska' : state === 'HI' ? 'hawaii' : 'contiguous'

const plain = (name: string): string =>
  name
    .toLowerCase()
    .trim()
    .replace(/ (county|parish|borough|census area|municipality)$/, '')
    .replace(/^saint(e?)\b/, 'st$1')
    .normalize('NFD')
    .replace(/[^a-z]/g, '')
