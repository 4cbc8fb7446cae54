// The answers of the slower years in a few sentences, with the way to all of them: the part of the page that comes by itself.
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { SlowerAnswers } from '#today/slower-years/figures.ts'
import { LinkButton } from '../parts/button.tsx'

/** Where all of them are. */
export const answersPath = '/slower-years/answers'

/** With script they come by themselves; without, by their link. */
export const AnswersWaiting = () => (
  <div id="answers" hx-get={answersPath} hx-trigger="load" hx-target="#answers" hx-swap="outerHTML">
    <h2>Mix, cushion, claims</h2>
    <p>
      Working it out takes a few seconds.{' '}
      <LinkButton href={answersPath} small quiet>
        Work it out
      </LinkButton>
    </p>
  </div>
)

export const AnswersBrief = ({ answers }: { answers: SlowerAnswers }) => (
  <div id="answers">
    <section aria-labelledby="answers-title">
      <h2 id="answers-title">Mix, cushion, claims</h2>
      <p>
        {mixesInWords(answers)}
        {answers.cushion === null
          ? ''
          : ` Savings needed by ${nameOfMonth(answers.cushion.month)}: ${formatDollars(answers.cushion.needed)}.`}{' '}
        <a href={answersPath}>All of it, and when to claim</a>
      </p>
    </section>
  </div>
)

const mixesInWords = ({ mixes }: SlowerAnswers): string => {
  const found = mixes.flatMap(({ answer, from, there }) =>
    answer.kind === 'found' ? [`${besidePlan(answer.net - there.net)} from ${nameOfMonth(from)}`] : [],
  )
  if (found.length > 0) return `Against the plan the best mix makes ${found.join(', ')}.`
  const because = mixes.flatMap(({ answer }) => (answer.kind === 'found' ? [] : [`${answer.because}.`]))
  return because[0] ?? 'Without a phase there is no mix to look for.'
}

const besidePlan = (more: number): string =>
  Math.abs(more) < 1 ? 'as much' : `${formatDollars(Math.abs(more))} ${more > 0 ? 'more' : 'less'} a year`
