// What fields of a form come to, beside them: worked out by the server when the page is made, and by the script as they change.
import { formatDollarsAndCents } from '#money/format.ts'
import type { FormNode } from '#plan/form/nodes.ts'
import { type FormSum, formSum } from '#plan/form/sums.ts'

export const FormSums = ({ sums, nodes }: { sums: readonly FormSum[]; nodes: readonly FormNode[] }) =>
  sums.length === 0 ? null : (
    <dl class="form-sums">
      {sums.map((sum) => {
        const value = formSum(nodes, sum)
        return (
          <div>
            <dt>{sum.label}</dt>
            <dd
              data-sum
              data-plus={sum.plus.join(' ')}
              data-minus={sum.minus.join(' ')}
              data-times={sum.times ?? ''}
              data-per={sum.per ?? ''}
            >
              {value === null ? '–' : formatDollarsAndCents(value)}
            </dd>
          </div>
        )
      })}
    </dl>
  )
