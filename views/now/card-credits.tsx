// Cards on which more was paid than is booked on them: said in words, with what to do, and counted only when a person says so.
import { centsToDecimalText, formatCents } from '#money/format.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { Button } from '../parts/button.tsx'
import { FormId, Hidden } from '../parts/field.tsx'

type Card = NowFigures['spendable']['cards'][number]

export const CardCredits = ({ cards, formId }: { cards: readonly Card[]; formId: string }) =>
  cards.length === 0 ? null : (
    <section aria-labelledby="cards-title">
      <h2 id="cards-title">Paid on a card, not booked as spent</h2>
      <ul class="due">
        {cards.map((card) => (
          <li>
            <CardCredit card={card} formId={formId} />
          </li>
        ))}
      </ul>
    </section>
  )

const CardCredit = ({ card, formId }: { card: Card; formId: string }) => {
  const counted = card.countedCents > 0
  const asWhat = card.side === 'farm' ? 'farm cash' : 'savings'
  return (
    <>
      <div>
        <a href={`/books/accounts/${card.id}`}>
          {card.name}: {formatCents(card.creditCents)}
        </a>
        <p class="hint">
          {counted
            ? `You entered that the card’s bank owes ${formatCents(card.countedCents)} back: so much counts as ${asWhat}.`
            : `Payments are booked on it and the charges they paid for are not. It does not count as ${asWhat}: it is spent, on what the books cannot say yet.`}{' '}
          <a href="/books/statements">Read in its statements</a>, or book what was owed on the first day.
        </p>
      </div>
      <form method="post" action="/now/card-credit">
        <FormId value={formId} />
        <Hidden name="account" value={String(card.id)} />
        <Hidden name="owed" value={counted ? '0.00' : centsToDecimalText(card.creditCents)} />
        <Button quiet small>
          {counted ? 'Do not count it' : 'Its bank owes us this: count it'}
        </Button>
      </form>
    </>
  )
}
