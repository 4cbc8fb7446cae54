// What the head of a closed row of a form says: what it is called, and what it comes to.
import { monthNames } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import { parseQuantity } from '#money/parse.ts'
import type { FormNode } from '#plan/form/nodes.ts'

export const rowName = (row: readonly FormNode[], label: string, place: number): string => {
  const named = row.find((node) => node.kind === 'field' && /\.(name|from)$/.test(node.name))
  return named?.kind === 'field' && named.value !== '' ? named.value : `${label} ${place + 1}`
}

/** As they are typed, where they are no numbers of months yet. */
const inMonths = (typed: string): string => {
  const names = typed.split(/[\s,;]+/).map((number) => monthNames[Number(number) - 1])
  return names.includes(undefined) ? `in months ${typed}` : `in ${allOf(names as string[])}`
}

/** What a closed row comes to: its first amount, as far as it is typed. */
export const rowHolds = (row: readonly FormNode[]): string => {
  const amount = row.find((node) => node.kind === 'field' && node.of === 'money' && node.value !== '')
  if (amount?.kind !== 'field') return ''
  const read = parseQuantity(amount.value)
  if (!read.ok) return ''
  const only = row.find((node) => node.kind === 'field' && /\.months$/.test(node.name) && node.value !== '')
  const [per = ''] = /\ba (month|year)\b/i.exec(amount.label) ?? []
  const when = only?.kind === 'field' ? inMonths(only.value) : per.toLowerCase()
  return [formatDollars(read.value), when].filter(Boolean).join(' ')
}
