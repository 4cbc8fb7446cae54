// What is wrong with a form, on top of it: takes the focus and links to each field.
import { asksToReopen } from '#ledger/problem.ts'
import { type FieldErrors, fieldId } from './field.tsx'

interface SummaryProps {
  errors: FieldErrors
  title?: string
  /** As the fields of the form have it. */
  at?: string
}

export const ErrorSummary = ({ errors, title, at }: SummaryProps) => {
  const entries = Object.entries(errors)
  if (entries.length === 0) return null
  const isClosed = entries.some(([, message]) => asksToReopen(message))
  return (
    <section class="error-summary" id="errors" tabindex={-1} autofocus aria-labelledby="errors-title">
      <h2 id="errors-title">{title ?? 'Not saved. Please fix the following'}</h2>
      <ul>
        {entries.map(([name, message]) => (
          <li>{name === '' ? message : <a href={`#${fieldId(name, at)}`}>{message}</a>}</li>
        ))}
        {isClosed ? (
          <li>
            <a href="/books/close">Reopen a month</a>
          </li>
        ) : null}
      </ul>
    </section>
  )
}
