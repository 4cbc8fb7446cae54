// What stands where a page needs a plan and there is none, or none that can be read.
import { PageTitle } from '../layout.tsx'
import { EmptyState } from '../parts/message.tsx'

export const NoPlanPage = ({ title, says }: { title: string; says?: string | undefined }) => (
  <>
    <PageTitle purpose="This page reads the plan.">{title}</PageTitle>
    {says === undefined ? (
      <EmptyState href="/start/costs" action="Enter monthly costs">
        There is no plan yet. What a month costs and what the farm gives are enough to begin one.
      </EmptyState>
    ) : (
      <EmptyState href="/runway/revisions" action="Look at its revisions">
        The plan cannot be read. {says}
      </EmptyState>
    )}
  </>
)
