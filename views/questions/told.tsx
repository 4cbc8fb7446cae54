// An answer as it is told: what, why and what would change it; its chart and numbers; what moves it; and what of it the plan can take.
import { formatDollars, formatPercent } from '#money/format.ts'
import { type Moves, sayMove } from '#solve/moves.ts'
import { sayMoves } from '#solve/questions.ts'
import { whyOf } from '#solve/why.ts'
import { Button, ButtonRow } from '../parts/button.tsx'
import { Hidden, PlanFormIds } from '../parts/field.tsx'
import { DataTable } from '../parts/table.tsx'
import { AnswerShown } from './answers.tsx'
import type { QuestionFigures, ToldAnswer } from './figures.ts'

interface ToldProps {
  told: ToldAnswer
  figures: QuestionFigures
  /** More is on its way: it is shown anew, and not read out each time. */
  isSoFar: boolean
}

export const ToldShown = ({ told, figures, isSoFar }: ToldProps) => {
  const { answer, moves } = told
  const change = sayMoves(moves)
  const why = whyOf(answer, figures.firstMonth)
  return (
    <>
      <p class="question-answer" {...(isSoFar ? {} : { role: 'status' })}>
        {answer.sentence}
      </p>
      {why === '' ? null : <p>{why}</p>}
      {change === '' ? null : <p>{change}</p>}
      {isSoFar ? null : <TakeForms figures={figures} />}
      <AnswerShown answer={answer} firstMonth={figures.firstMonth} />
      {moves === null ? null : <MovesTable moves={moves} />}
    </>
  )
}

const MovesTable = ({ moves }: { moves: Moves }) => {
  const told = moves.unit === 'dollars' ? formatDollars : (share: number) => formatPercent(share, 0)
  return (
    <>
      <DataTable
        caption={`What moves ${moves.of}${moves.taken ? ', with the answer taken' : ''}`}
        ofPlan
        rows={moves.moves}
        stack
        columns={[
          { title: 'Assumption', isHeader: true, cell: (one) => one.assumption },
          { title: 'By', cell: (one) => one.by },
          { title: 'Less of it', isNumber: true, cell: (one) => sayMove(moves, one.less) },
          { title: 'More of it', isNumber: true, cell: (one) => sayMove(moves, one.more) },
        ]}
      />
      <p class="hint">
        Added to the answer or taken from it, by {String(moves.paths)} simulations each, the same for all; as
        planned they say {Number.isFinite(moves.own) ? told(moves.own) : 'out of reach'}.
      </p>
    </>
  )
}

const TakeForms = ({ figures }: { figures: QuestionFigures }) => {
  const { take } = figures
  if (take === null || take.choices.length === 0) return null
  return (
    <form method="post" action={`/runway/questions/${figures.question}/take`} class="no-print">
      <PlanFormIds {...take.ids} />
      <Hidden name="job" value={take.job} />
      <ButtonRow>
        {take.choices.map((choice) => (
          <Button name="which" value={choice.id}>
            {choice.label}
          </Button>
        ))}
      </ButtonRow>
      <p class="hint">The plan then has a new revision, which can be undone.</p>
      <ul class="plain">
        {take.choices.map((choice) => (
          <li>
            <a href={`/runway?try=${encodeURIComponent(`${take.job} ${choice.id}`)}`}>
              Try it first, with the levers:{' '}
              {choice.label.replace(/^Take (into the plan: )?/, '').replace(/ into the plan$/, '')}
            </a>
          </li>
        ))}
      </ul>
    </form>
  )
}
