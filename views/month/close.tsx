// The closing step: what may be closed over, and one press for all sides. What stops it is left of the steps before.
import { monthName, monthText } from '#calendar/month.ts'
import { allOf } from '#money/lists.ts'
import { OverBegun } from '../close/over-begun.tsx'
import { Button } from '../parts/button.tsx'
import { FormId, Hidden, neverRestored } from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'
import type { MonthPageProps } from './figures.ts'
import { isUntouched } from './steps.ts'

export const CloseTogether = ({ figures, formId, isTicked }: MonthPageProps) => {
  const { month, close, isOver } = figures
  const open = close.filter((one) => !one.isClosed)
  if (!isOver || open.length === 0 || isUntouched(figures)) return null
  if (open.some((one) => one.stops.length > 0)) return <p class="hint">{stopWords(open)}</p>
  const looks = open.filter((one) => one.looks.length > 0)
  return (
    <form method="post" action="/month/close" class="path-form" {...neverRestored}>
      <FormId value={formId} />
      <Hidden name="month" value={monthText(month)} />
      {looks.length === 0 ? null : (
        <ul class="path-rows">
          {looks.map(({ side, looks: items }) => (
            <li>
              <SideWord kind={side.kind}>{side.name}</SideWord>
              <span>{items.map(({ text }) => text).join('. ')}</span>
            </li>
          ))}
        </ul>
      )}
      {open
        .flatMap(({ begun }) => begun)
        .map((account) => (
          <OverBegun account={account} name="begun[]" isTicked={isTicked('begun[]', String(account.id))} />
        ))}
      <Button>Close {monthName(month)}</Button>
    </form>
  )
}

/** What stops all sides alike once, the rest with the side it is of. */
const stopWords = (open: MonthPageProps['figures']['close']): string => {
  const told = new Map<string, { text: string; sides: string[] }>()
  for (const { side, stops } of open)
    for (const { id, text } of stops) {
      // As many transactions on each side are not the same ones; a transfer that is due is.
      const key = id === 'lines' ? `${side.id} ${text}` : text
      told.set(key, { text, sides: [...(told.get(key)?.sides ?? []), side.name] })
    }
  return [...told.values()]
    .map(({ text, sides }) => (sides.length === open.length ? `${text}.` : `${allOf(sides)}: ${text}.`))
    .join(' ')
}
