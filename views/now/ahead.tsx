// What the plan changes in the next twelve months by much, each in a line, with where it is told.
import { yearOf } from '#calendar/month.ts'
import type { NowFigures } from '#today/now/figures.ts'

export const Ahead = ({ ahead }: Pick<NowFigures, 'ahead'>) =>
  ahead.length === 0 ? null : (
    <section aria-labelledby="ahead-title">
      <h2 id="ahead-title">In the next twelve months</h2>
      <ul class="due">
        {ahead.map((step) => (
          <li>
            <a href={step.of === 'premiums' ? `/cover?year=${yearOf(step.month)}` : '/runway/years'}>
              {step.says}
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
