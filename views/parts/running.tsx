// Long work as a page shows it: how far it is, with a button that stops it, and of what it was asked.
import { type Day, dayName } from '#calendar/day.ts'
import { sayTimeLeft } from '#kept/time-left.ts'
import { Button, ButtonRow, LinkButton } from './button.tsx'
import { Hidden } from './field.tsx'
import { refreshes } from './htmx.ts'
import { Notice, Progress } from './message.tsx'

/** Where a job stands. `Done` is what the page shows of its result. */
export type JobShown<Done> =
  | { status: 'none' }
  | {
      status: 'running'
      id: string
      done: number
      of: number
      /** Until others, asked for before it, have ended. */
      waits: boolean
      secondsLeft: number | null
      /** What is known before all is. */
      soFar: Done | null
    }
  | { status: 'stopped'; forNewer: boolean /** What was known by then. */; soFar: Done | null }
  | { status: 'failed'; says: string }
  | ({ status: 'done'; seconds: number } & Done)

export interface RunningProps {
  job: Omit<Extract<JobShown<unknown>, { status: 'running' }>, 'status'>
  label: string
  /** The page of the job: it is watched under `?job=` and stopped under `/stop`. */
  address: string
  /** Id of the element that each answer replaces. */
  place: string
}

/** By the button, or because too many newer ones wait: then the person has not asked for it. `kept` says what stays. */
export const Stopped = ({ job, kept }: { job: { forNewer: boolean }; kept: string }) => (
  <p role="status">
    {job.forNewer ? 'Stopped: a newer run was started.' : 'Stopped.'} {kept}
  </p>
)

/** Asks for itself again until it no longer says that it is running. Without script, by the link. */
export const Running = ({ job, label, address, place }: RunningProps) => (
  <div
    {...refreshes(
      place,
      { get: `${address}?job=${job.id}` },
      job.soFar === null ? 'every 400ms' : 'every 2s',
    )}
  >
    <Progress done={job.done} of={job.of} label={label} />
    {job.waits ? <p class="hint">Waits until one of those asked before it is answered. {goesOn}</p> : null}
    {job.secondsLeft === null ? null : (
      <p class="hint">
        {sayTimeLeft(job.secondsLeft)} {goesOn}
      </p>
    )}
    <form method="post" action={`${address}/stop`} {...refreshes(place, { post: `${address}/stop` })}>
      <Hidden name="job" value={job.id} />
      <ButtonRow>
        <Button quiet>Stop</Button>
        <LinkButton quiet href={`${address}?job=${job.id}`}>
          Refresh
        </LinkButton>
      </ButtonRow>
    </form>
  </div>
)

/** Leaving the page ends nothing: who comes back finds it under way or done. */
const goesOn = 'It goes on when you leave this page.'

interface AskedBeforeProps {
  /** `since`: what of it has changed, in a sentence. */
  before: { askedOn: Day; revisionNo: number; since: string }
  /** What to do, in a sentence. */
  children: string
}

/** Over what was worked out of the plan as it was. */
export const AskedBefore = ({ before: { askedOn, revisionNo, since }, children }: AskedBeforeProps) => (
  <Notice>
    <p>
      Asked on {dayName(askedOn)} of the plan as it was then, revision {String(revisionNo)}. {since}{' '}
      {children}
    </p>
  </Notice>
)
