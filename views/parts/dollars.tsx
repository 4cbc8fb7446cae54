// In which dollars the plan's amounts stand: said wherever there are any, and the switch to the other kind.
import type { Child } from 'hono/jsx'
import { createContext, useContext } from 'hono/jsx'
import { nameOfMonth } from '#calendar/month.ts'
import type { Dollars } from '#runway/dollars/dollars.ts'
import { Button } from './button.tsx'
import { Hidden } from './field.tsx'

/** Set by the answer of every page that shows amounts of the plan; elsewhere nothing is said. */
export const ShownDollars = createContext<{
  dollars: Dollars
  back: string
  /** The plan's prices step up each January, and the worth of a dollar with them. */
  stepsInJanuary: boolean
} | null>(null)

/** Besides the kinds that the switch offers: those of one year, and amounts that were published in their own year. */
export type ToldDollars = Dollars | { of: 'one year'; year: number } | { of: 'published' }

export const dollarsInWords = (dollars: ToldDollars): string => {
  switch (dollars.of) {
    case 'year':
      return 'dollars of each year'
    case 'one year':
      return `dollars of ${dollars.year}`
    case 'published':
      return 'dollars of each year, as published'
    case 'today':
      return `today’s dollars, of ${nameOfMonth(dollars.month)}`
  }
}

/** A line under a chart or a table of plan amounts; `of` where these are told in one kind whichever is shown. */
export const DollarsSaid = ({ of }: { of?: ToldDollars | undefined }) => {
  const shown = useContext(ShownDollars)
  return shown === null ? null : <p class="dollars-said">In {dollarsInWords(of ?? shown.dollars)}.</p>
}

export const DollarsSwitch = () => {
  const shown = useContext(ShownDollars)
  if (shown === null) return null
  const { dollars, back, stepsInJanuary } = shown
  const other = dollars.of === 'year' ? 'today' : 'year'
  return (
    <form method="post" action="/dollars" class="dollars-switch">
      <Hidden name="of" value={other} />
      <Hidden name="back" value={back} />
      <p>
        Amounts of the plan are in <strong>{dollarsInWords(dollars)}</strong>
        {dollars.of === 'year' ? ', which rising prices make worth less each year.' : '.'}
        {dollars.of === 'today' && stepsInJanuary
          ? ' The plan’s prices step up each January, so savings that stay the same step down then.'
          : null}
      </p>
      <Button quiet small>
        {other === 'year' ? 'Show dollars of each year' : 'Show today’s dollars'}
      </Button>
    </form>
  )
}

/** Text with amounts in it: a browser may break a line between a minus and its dollar sign, and must not. */
export const unbroken = (text: string): Child =>
  text.includes('−$')
    ? text
        .split(/(\(?\u2212\$[\d,.]*\d[km]?\)?)/)
        .map((part, place) => (place % 2 === 1 ? <span class="amount">{part}</span> : part))
    : text
