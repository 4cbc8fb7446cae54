// Coverage of each person as spans of months: years that go on with the same kind are one span.
import { type Month, month, monthName } from '#calendar/month.ts'
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'
import type { CoverYearRow } from '#today/cover/figures.ts'
import type { Span } from '../charts/span-chart.tsx'
import { coverageWords } from './coverage-words.ts'

/** Shown this many years beyond the last change: what goes on for life needs no more room. */
const yearsBeyond = 3

export function spansOf(all: readonly CoverYearRow[]): { name: string; spans: Span[] }[] {
  const names = [...new Set(all.flatMap((row) => row.people.map((person) => person.name)))]
  const rows = names.map((name) => ({ name, spans: kindsOf(all, name) }))
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

/** What stands next for whom, in words. */
export const spansInWords = (all: readonly CoverYearRow[]): string =>
  spansOf(all)
    .map(({ name, spans }) => {
      const [first, ...later] = spans
      if (!first) return ''
      const then = later.map((one) => `${one.says} from ${monthName(one.from as Month)}`)
      return `${name}: ${[first.says, ...then].join(', ')}.`
    })
    .filter(Boolean)
    .join(' ')

interface KindSpan {
  kind: CoverageKind
  from: number
  to: number
}

function kindsOf(all: readonly CoverYearRow[], name: string): KindSpan[] {
  const spans: KindSpan[] = []
  for (const row of all) {
    const covers = row.people.find((person) => person.name === name)?.cover ?? []
    const known = covers.reduce((sum, one) => sum + one.months, 0)
    // A year of which the plan knows only the end begins late.
    let at = month(row.year, 1) + (row === all[0] ? 12 - Math.min(12, known) : 0)
    for (const { kind, months } of covers) {
      const last = spans.at(-1)
      if (last?.kind === kind && last.to === at) last.to = at + months
      else spans.push({ kind, from: at, to: at + months })
      at += months
    }
  }
  return spans
}

const saysOf = (kind: CoverageKind): string =>
  kind === 'none' ? 'no coverage' : kind === 'children’s program' ? 'children’s program' : coverageWords[kind]

const looks: Readonly<Record<CoverageKind, Span['look']>> = {
  absent: 'gap',
  none: 'gap',
  'other plan': 'middle',
  marketplace: 'middle',
  Medicaid: 'light',
  'children’s program': 'light',
  'basic health program': 'light',
  Medicare: 'full',
}
