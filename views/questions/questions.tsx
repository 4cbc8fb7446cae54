// The questions a plan can be asked: a list of them, and for each its form, its progress, its sentence and its chart.
import type { Child } from 'hono/jsx'
import { dayName } from '#calendar/day.ts'
import { DrawsChoice } from '../chance/draws-choice.tsx'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, Hidden, PercentField, QuantityField } from '../parts/field.tsx'
import { refreshes } from '../parts/htmx.ts'
import { Caution, NoticeSection } from '../parts/message.tsx'
import { AskedBefore as Before, Running, Stopped } from '../parts/running.tsx'
import type { QuestionFigures, QuestionKnown, QuestionLine } from './figures.ts'
import { ToldShown } from './told.tsx'

interface QuestionsPageProps {
  lines: readonly (QuestionLine & { known: QuestionKnown | null })[]
  planName: string
}

export const QuestionsPage = ({ lines, planName }: QuestionsPageProps) => (
  <>
    <PageTitle help="questions" purpose="What to do, found by trying it in many simulations of the plan.">
      Questions
    </PageTitle>
    <p class="answer">{answerOf(lines)}</p>
    <p>They are asked of {planName}. Each answer says how sure it is.</p>
    <dl class="question-list">
      {lines.map((line) => (
        <Line href={`/runway/questions/${line.question}`} title={line.title}>
          {line.asks}
          {line.known === null ? null : <Known known={line.known} />}
        </Line>
      ))}
      <Line href="/runway/questions/income-room" title="Income room">
        How much more can we earn in each year before coverage costs more than it brings?
      </Line>
      <Line href="/slower-years" title="Mix">
        Which enterprises keep our net income at fewer hours? It is asked on Slower years.
      </Line>
    </dl>
  </>
)

const Line = ({ href, title, children }: { href: string; title: string; children: Child }) => (
  <div class="question-line">
    <dt>
      <a href={href}>{title}</a>
    </dt>
    <dd>{children}</dd>
  </div>
)

const answerOf = (lines: QuestionsPageProps['lines']): string => {
  const running = lines.filter(({ known }) => known?.state === 'running').length
  const told = lines.filter(({ known }) => known !== null).length - running
  const says = [
    ...(told === 0 ? [] : [`${told} ${told === 1 ? 'question has' : 'questions have'} an answer`]),
    ...(running === 0 ? [] : [`${running} ${running === 1 ? 'is' : 'are'} being worked out now`]),
  ]
  return says.length === 0 ? 'No question has been asked yet.' : `${says.join(', ')}.`
}

const Known = ({ known }: { known: QuestionKnown }) =>
  known.state === 'running' ? (
    <p class="hint">
      {known.ofRevision === null
        ? 'Being worked out now.'
        : `Being worked out now, of the plan as it was at revision ${known.ofRevision}.`}
    </p>
  ) : (
    <p class="hint">
      {known.state === 'now'
        ? `Answered on ${dayName(known.askedOn)}, of revision ${known.revisionNo}: `
        : `Answered on ${dayName(known.askedOn)}, of the plan as it was then, revision ${known.revisionNo}. ${known.since} It said: `}
      {known.sentence}
    </p>
  )

export interface QuestionProps {
  figures: QuestionFigures
  errors: FieldErrors
}

export const QuestionPage = (props: QuestionProps) => (
  <>
    <PageTitle purpose={props.figures.asks}>{props.figures.title}</PageTitle>
    <Question {...props} />
    <p>
      <a href="/runway/questions">Other questions</a>
    </p>
    <Caution>{props.figures.caution}</Caution>
  </>
)

/** Every answer to its forms replaces it whole. */
export const Question = ({ figures, errors }: QuestionProps) => (
  <section id="question" class="question" aria-label={figures.title}>
    <Lacks lacks={figures.lacks} />
    <ErrorSummary errors={errors} title="The question was not asked. Please fix the following" />
    <State figures={figures} />
    {figures.run.status === 'running' ? null : <AskForm figures={figures} errors={errors} />}
  </section>
)

/** Said before it is asked, so that nobody waits for an answer of nothing. */
const Lacks = ({ lacks }: Pick<QuestionFigures, 'lacks'>) =>
  lacks === null ? null : (
    <NoticeSection label="What the plan lacks">
      <p>
        {lacks.says} <a href={lacks.href}>{lacks.link}</a>.
      </p>
    </NoticeSection>
  )

const Forgotten = () => (
  <p role="status">
    What was asked here is not kept: the program was stopped since, or many other questions were asked. Ask it
    again.
  </p>
)

const State = ({ figures }: { figures: QuestionFigures }) => {
  const { run, before } = figures
  switch (run.status) {
    case 'none':
      return figures.isForgotten ? <Forgotten /> : null
    case 'running':
      return (
        <>
          <Running
            job={run}
            label={`${figures.title}: simulations so far`}
            address={`/runway/questions/${figures.question}`}
            place="question"
          />
          {before === null ? null : (
            <>
              <AskedBefore before={before} />
              <AskAgain figures={figures} />
            </>
          )}
          {run.soFar === null ? null : (
            <>
              <p class="hint">So far, from {String(run.soFar.answer.paths)} simulations:</p>
              <ToldNow told={run.soFar} figures={figures} isSoFar />
            </>
          )}
        </>
      )
    case 'stopped':
      return run.soFar === null ? (
        <Stopped job={run} kept="No answer was kept." />
      ) : (
        <>
          {before === null ? null : <AskedBefore before={before} />}
          <Stopped
            job={run}
            kept={`This was known by then, from ${run.soFar.answer.paths} simulations. Ask again for all of it.`}
          />
          <ToldNow told={run.soFar} figures={figures} isSoFar />
        </>
      )
    case 'failed':
      return <p role="alert">{run.says}</p>
    case 'done':
      return (
        <>
          {before === null ? null : <AskedBefore before={before} />}
          <ToldNow told={run} figures={figures} isSoFar={false} />
          <p class="hint">
            {figures.asked === null ? '' : `${figures.asked} `}
            {run.answer.paths} simulations, seed {run.answer.seed}, {run.seconds.toFixed(1)} seconds.{' '}
            <a href={`/runway/questions/${figures.question}.json`}>As JSON</a>
          </p>
        </>
      )
  }
}

/** With the same choices, of the plan as it is: by one press, since what is shown while it runs is shown anew all the time. */
const AskAgain = ({ figures: { question, choices } }: { figures: QuestionFigures }) => (
  <form
    method="post"
    action={`/runway/questions/${question}`}
    class="no-print"
    {...refreshes('question', { post: `/runway/questions/${question}` })}
  >
    {Object.entries(choices).map(([name, value]) => (
      <Hidden name={name} value={value} />
    ))}
    <Button quiet>Ask it of the plan as it is now</Button>
  </form>
)

/** Its amounts stand beside others only in the same dollars. */
const ToldNow = (props: Parameters<typeof ToldShown>[0]) =>
  props.figures.before?.isInDollars === false ? (
    <p class="answer question-answer">The answer in those dollars: {props.told.answer.sentence}</p>
  ) : (
    <ToldShown {...props} />
  )

const AskedBefore = ({ before }: { before: NonNullable<QuestionFigures['before']> }) => (
  <Before before={before}>Ask again for what holds now.</Before>
)

const AlsoAsks = ({ figures: { alsoAsks, choices }, errors }: QuestionProps) =>
  alsoAsks === 'laterRate' ? (
    <PercentField
      name="laterRate"
      label="Tax later on what is left untaxed, percent"
      hint="On what traditional accounts hold at the end: your own rate then, or that of whoever is left with them"
      value={choices.laterRate}
      error={errors.laterRate}
    />
  ) : alsoAsks === 'weeklyHours' ? (
    <QuantityField
      name="weeklyHours"
      label="Hours a week of each of us"
      hint="On the farm, once slower. Empty: the hours of the plan’s slower phases"
      value={choices.weeklyHours}
      error={errors.weeklyHours}
    />
  ) : null

/** What holds now is told: then nothing is next, and to ask again is one choice of several. */
const isAnswered = ({ run, before }: QuestionFigures): boolean => run.status === 'done' && before === null

const AskForm = ({ figures, errors }: QuestionProps) => (
  <form
    method="post"
    action={`/runway/questions/${figures.question}`}
    class="question-form no-print"
    {...refreshes('question', { post: `/runway/questions/${figures.question}` })}
    hx-disable="find button"
  >
    <PercentField
      name="confidence"
      label="How sure the answer must be, percent"
      hint="Share of simulations in which the answer must hold, 50 to 99"
      value={figures.choices.confidence}
      error={errors.confidence}
    />
    <DrawsChoice choices={figures.choices} errors={errors} mostPaths="5,000" />
    <AlsoAsks figures={figures} errors={errors} />
    <Button quiet={isAnswered(figures)}>{figures.before === null ? 'Ask' : 'Ask again'}</Button>
  </form>
)
