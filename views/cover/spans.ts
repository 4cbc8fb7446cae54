// Coverage of each person as spans of months: years that go on with the same kind are one span.
import { type Month, month, monthName } from '#calendar/month.ts'
import { allOf } from '#money/lists.ts'
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'
import type { CoverYearRow } from '#today/cover/figures.ts'
import type { Span } from '../charts/span-chart.tsx'
import { coverageHad, coverageWords } from './coverage-words.ts'

/** Shown this many years beyond the last change: what goes on for life needs no more room. */
const yearsBeyond = 3

export function spansOf(all: readonly CoverYearRow[]): { name: string; spans: Span[] }[] {
  const rows = namesOf(all).map((name) => ({ name, spans: kindsOf(all, name) }))
  const lastChange = Math.max(...rows.map(({ spans }) => spans.at(-1)?.from ?? 0))
  const end = Math.min(
    lastChange + yearsBeyond * 12,
    Math.max(...rows.flatMap(({ spans }) => spans.map((one) => one.to))),
  )
  return rows.map(({ name, spans }) => ({
    name,
    spans: spans
      .filter(({ kind, from }) => kind !== 'absent' && from < end)
      .map(({ kind, from, to }) => ({ from, to: Math.min(to, end), says: saysOf(kind), look: looks[kind] })),
  }))
}

/** What each has, one after the other. */
export const spansInWords = (all: readonly CoverYearRow[]): string => {
  const people = peopleOf(all)
  const end = Math.max(...people.flatMap(({ spans }) => spans.map(({ to }) => to)))
  return people
    .map(({ name, spans: [first, ...later] }) => {
      if (!first) return ''
      const last = later.at(-1) ?? first
      const until = last.to < end ? ` until ${monthName(last.to as Month)}, as the plan has it` : ''
      const had = [
        `${coverageHad[first.kind]}${later.length > 0 ? ' at first' : ''}`,
        ...later.map(({ kind, from }) => `${coverageHad[kind]} from ${monthName(from as Month)}`),
      ]
      return `${name} has ${had.join(', then ')}${until}.`
    })
    .filter(Boolean)
    .join(' ')
}

/** What is next, from this month on, and for whom: the answer of the page. Null where nothing changes any more. */
export function nextInWords(all: readonly CoverYearRow[], thisMonth: Month): string | null {
  const changes = peopleOf(all).flatMap(({ name, spans }) =>
    spans
      .slice(1)
      .filter(({ from }) => from >= thisMonth)
      .map((span) => ({ name, ...span })),
  )
  const next = Math.min(...changes.map(({ from }) => from))
  const atOnce = changes.filter(({ from }) => from === next)
  if (atOnce.length === 0) return null
  const kinds = [...new Set(atOnce.map(({ kind }) => kind))]
  const said = kinds.map((kind) => {
    const names = atOnce.filter((one) => one.kind === kind).map(({ name }) => name)
    return whoHas(names, coverageHad[kind])
  })
  return `From ${monthName(next as Month)} ${said.join(', and ')}.`
}

const peopleOf = (all: readonly CoverYearRow[]): { name: string; spans: KindSpan[] }[] =>
  namesOf(all).map((name) => ({ name, spans: kindsOf(all, name).filter(({ kind }) => kind !== 'absent') }))

const namesOf = (all: readonly CoverYearRow[]): string[] => [
  ...new Set(all.flatMap((row) => row.people.map((person) => person.name))),
]

interface KindSpan {
  kind: CoverageKind
  from: number
  to: number
}

function kindsOf(all: readonly CoverYearRow[], name: string): KindSpan[] {
  const spans: KindSpan[] = []
  for (const row of all) {
    for (const { kind, from, months } of row.people.find((person) => person.name === name)?.cover ?? []) {
      const last = spans.at(-1)
      const at = month(row.year, from)
      if (last?.kind === kind && last.to === at) last.to = at + months
      else spans.push({ kind, from: at, to: at + months })
    }
  }
  return spans
}

const saysOf = (kind: CoverageKind): string =>
  kind === 'children’s program' ? 'children’s program' : coverageWords[kind]

const looks: Readonly<Record<CoverageKind, Span['look']>> = {
  absent: 'gap',
  none: 'gap',
  'other plan': 'middle',
  marketplace: 'middle',
  Medicaid: 'light',
  'children’s program': 'light',
  'basic health program': 'light',
  Medicare: 'full',
  'not known': 'gap',
}

/** `Teo, Mara, and Junie have Medicaid`. */
export const whoHas = (names: readonly string[], what: string): string =>
  `${allOf(names)} ${names.length === 1 ? 'has' : 'have'} ${what}`
