// Copies, at the foot of Now: a failed one and the age of the last that left this computer.
import { dayName } from '#calendar/day.ts'
import type { CopiesFigures } from '#today/now/copies.ts'

export const Copies = ({ copies }: { copies: CopiesFigures }) => (
  <section aria-labelledby="copies-title" class={copies.problem || copies.isDue ? 'notice' : undefined}>
    <h2 id="copies-title">Copies</h2>
    {copies.problem ? <p role="alert">Today’s copy could not be made. {copies.problem}</p> : null}
    <p>
      {said(copies)} <a href="/settings/backups">Download a backup</a>
    </p>
  </section>
)

const said = ({ lastElsewhere, daysSince, isDue }: CopiesFigures): string => {
  const danger = isDue ? ' What was entered since would go with this computer.' : ''
  if (lastElsewhere === null || daysSince === null)
    return `No copy has left this computer yet.${isDue ? ' All of it would go with this computer.' : ''}`
  const age = daysSince <= 0 ? 'today' : daysSince === 1 ? 'yesterday' : `${daysSince} days ago`
  return `A copy last left this computer ${age}, on ${dayName(lastElsewhere)}.${danger}`
}
