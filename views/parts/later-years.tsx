// Of a long table by year the first years stand open; those after them are a step away.

import type { Child } from 'hono/jsx'
import { fromTo } from '#calendar/spell.ts'

export const LaterYears = ({ years, children }: { years: readonly number[]; children?: Child }) =>
  years.length === 0 ? null : (
    <details>
      <summary>{`The years after: ${fromTo(String(years[0]), String(years.at(-1)))}`}</summary>
      {children}
    </details>
  )
