// The reconciling step: accounts that agree with their files by one press, the others with what keeps them apart.
import { dayName } from '#calendar/day.ts'
import { monthText } from '#calendar/month.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { ReconcileStep } from '#today/month/figures.ts'
import { Button } from '../parts/button.tsx'
import { FormId, Hidden, neverRestored } from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'
import { Explained } from '../reconcile/explained.tsx'
import type { MonthPageProps } from './figures.ts'
import { apartWords } from './steps.ts'

export const ReconcileTogether = ({ figures: { month, reconcile }, formId, isTicked }: MonthPageProps) => {
  const agreeing = reconcile.filter((one) => one.state === 'agrees' && one.openId === null)
  const others = reconcile.filter((one) => one.state !== 'done' && !agreeing.includes(one))
  return (
    <>
      {agreeing.length === 0 ? null : (
        <form method="post" action="/month/reconcile" class="path-form" {...neverRestored}>
          <FormId value={formId} />
          <Hidden name="month" value={monthText(month)} />
          <ul class="path-rows">
            {agreeing.map((one) => (
              <Agreeing one={one} isTicked={isTicked} />
            ))}
          </ul>
          <Button quiet>Reconcile {agreeing.length === 1 ? 'it' : `these ${agreeing.length}`}</Button>
        </form>
      )}
      {others.length === 0 ? null : (
        <ul class="path-rows">
          {others.map((one) => (
            <li>
              <SideWord kind={one.side}>{one.name}</SideWord>
              <span>{stateWords(one)}</span>
              <Explained accountId={one.id} explanations={one.explanations} />
              {one.valueAccountId === null ? null : (
                <form method="post" action="/month/value">
                  <FormId value={formId} />
                  <Hidden name="month" value={monthText(month)} />
                  <Hidden
                    name="value"
                    value={`${one.id}.${one.says!.day}.${one.says!.balanceCents}.${one.apartCents}`}
                  />
                  <Button quiet>
                    Book {formatCents(cents(-one.apartCents))} as change in value
                    <span class="hidden-text"> of {one.name}</span>
                  </Button>
                </form>
              )}
              <a
                href={
                  one.openId === null
                    ? `/books/reconcile?account=${one.id}`
                    : `/books/reconcile/${one.openId}`
                }
              >
                Reconcile {one.name}
              </a>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

const Agreeing = ({ one, isTicked }: { one: ReconcileStep } & Pick<MonthPageProps, 'isTicked'>) => {
  const { day, balanceCents } = one.says!
  const id = `agrees-${one.id}`
  const value = `${one.id}.${day}.${balanceCents}`
  return (
    <li>
      <span class="choice">
        <input type="checkbox" id={id} name="agrees[]" value={value} checked={isTicked('agrees[]', value)} />
        <label for={id}>{one.name}</label>
      </span>
      <span>
        books and file agree on {formatCents(balanceCents)}, {dayName(day)}
      </span>
      <a href={`/books/accounts/${one.id}`}>
        Its transactions<span class="hidden-text"> of {one.name}</span>
      </a>
    </li>
  )
}

const stateWords = ({ state, says, apartCents, openId }: ReconcileStep): string => {
  if (openId !== null) return 'begun, not finished'
  if (state === 'apart')
    return `the books have ${apartWords(apartCents)} than the file says for ${dayName(says!.day)}`
  if (state === 'waits') return 'transactions are to be sorted first'
  return 'no file says a balance: take it from the statement'
}
