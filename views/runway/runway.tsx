// The Runway page: levers beside the course they give, storms under it, and the ways to edit, compare and check the plan.
import type { Child } from 'hono/jsx'
import { PageTitle } from '../layout.tsx'
import { PrintButton } from '../parts/button.tsx'
import { Caution } from '../parts/message.tsx'
import { Course, type CourseProps } from './course.tsx'
import { Levers } from './levers.tsx'

export const RunwayPage = (props: CourseProps & { storms: Child; chance?: Child }) => (
  <>
    <PageTitle purpose="The plan, month by month, to the end of life.">Runway</PageTitle>
    <RunwayLinks current="/runway" />
    <div class="runway">
      <Course {...props}>{props.storms}</Course>
      <Levers levers={props.levers} errors={props.errors} />
    </div>
    {/* Bands and questions over many drawn courses stand here. */}
    {props.chance ?? null}
    <PrintButton />
    <Caution>
      Tax, insurance and benefits are worked out from published law, carried on with your own growth rates.
    </Caution>
  </>
)

const links = [
  { path: '/runway', name: 'Course' },
  { path: '/runway/chance', name: 'How sure' },
  { path: '/runway/questions', name: 'Questions' },
  { path: '/runway/plan', name: 'Edit the plan' },
  { path: '/runway/compare', name: 'Compare plans' },
  { path: '/runway/actual', name: 'Plan against the books' },
  { path: '/runway/revisions', name: 'Revisions' },
] as const

export const RunwayLinks = ({ current }: { current: string }) => (
  <nav aria-label="Parts of Runway" class="no-print">
    <ul class="sub-pages">
      {links.map((link) => (
        <li>
          <a href={link.path} aria-current={link.path === current ? 'page' : undefined}>
            {link.name}
          </a>
        </li>
      ))}
    </ul>
  </nav>
)
