// Of a long table by year the first years stand open; those after them are a step away.
import type { Child } from 'hono/jsx'

export const LaterYears = ({ years, children }: { years: readonly number[]; children?: Child }) =>
  years.length === 0 ? null : (
    <details>
      <summary>{`The years after: ${years[0]} to ${years.at(-1)}`}</summary>
      {children}
    </details>
  )
