// The Runway page: levers beside the course they give, storms under it, and the ways to edit, compare and check the plan.
import type { Child } from 'hono/jsx'
import { PageTitle } from '../layout.tsx'
import { PrintButton } from '../parts/button.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { Course, type CourseProps } from './course.tsx'
import { Levers } from './levers.tsx'

export const RunwayPage = (props: CourseProps & { storms: Child; chance: Child }) => (
  <>
    <PageTitle
      help="runway"
      purpose="The plan, month by month, to its end: when savings run out, and when the farm carries the house."
    >
      Runway
    </PageTitle>
    {props.figures.knowsCosts ? null : (
      <EmptyState href="/start/costs" action="Enter monthly costs">
        The plan has no living costs yet: the projection below leaves them out.
      </EmptyState>
    )}
    <div class="runway">
      <Course {...props} />
      <Levers
        levers={props.levers}
        errors={props.errors}
        trying={props.trying}
        isCalledOn={props.isCalledOn}
      />
      {props.storms}
    </div>
    {props.chance}
    <PrintButton />
    <Caution>
      Tax, insurance and benefits are worked out from published law, carried on with your own growth rates.
    </Caution>
  </>
)
