// An answer as it is told: one sentence and one picture, what of it the plan can take, and folded why, what would change it and what moves it.
import { formatDollars, formatPercent } from '#money/format.ts'
import { type Moves, sayMove } from '#solve/moves.ts'
import { sayMoves } from '#solve/questions.ts'
import { whyOf } from '#solve/why.ts'
import { Button, ButtonRow } from '../parts/button.tsx'
import { Hidden, PlanFormIds } from '../parts/field.tsx'
import { Fold } from '../parts/fold.tsx'
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
  return (
    <>
      <p class="answer question-answer" {...(isSoFar ? {} : { role: 'status' })}>
        {answer.sentence}
      </p>
      <AnswerShown answer={answer} firstMonth={figures.firstMonth} />
      {isSoFar ? null : <TakeForms figures={figures} />}
      <WhyFold told={told} firstMonth={figures.firstMonth} />
      {moves === null ? null : <MovesFold moves={moves} />}
    </>
  )
}

const WhyFold = ({ told: { answer, moves }, firstMonth }: { told: ToldAnswer; firstMonth: number }) => {
  const said = [...answer.more, whyOf(answer, firstMonth), sayMoves(moves)].filter((each) => each !== '')
  return said.length === 0 ? null : (
    <Fold
      name="Why, and what would change it"
      holds={`${said.length} ${said.length === 1 ? 'point' : 'points'}`}
    >
      <ul class="told-more">
        {said.map((each) => (
          <li>{each}</li>
        ))}
      </ul>
    </Fold>
  )
}

const MovesFold = ({ moves }: { moves: Moves }) => {
  const told = moves.unit === 'dollars' ? formatDollars : (share: number) => formatPercent(share, 0)
  const name = `What moves ${moves.of}${moves.taken ? ', with the answer taken' : ''}`
  return (
    <Fold name={name} holds={`${moves.moves.length} assumptions`}>
      <DataTable
        caption={name}
        hideCaption
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
    </Fold>
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
          <Button quiet name="which" value={choice.id}>
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
