// Every figure from outside, with its year, source and how it was obtained.
import { PageTitle } from '../layout.tsx'
import { Fold } from '../parts/fold.tsx'
import { DataTable } from '../parts/table.tsx'

export interface SourceFigure {
  topic: string
  rule: string
  unit: string
  source: string
  note?: string
  values: readonly { year: string; value: string; obtained: string }[]
  after: string
}

export const SourcesPage = ({ figures }: { figures: readonly SourceFigure[] }) => {
  const topics = [...new Set(figures.map((figure) => figure.topic))]
  return (
    <>
      <PageTitle purpose="Every published figure used here: its year, where it comes from, and how we got it.">
        Sources
      </PageTitle>
      {topics.map((topic) => {
        const ofTopic = figures.filter((figure) => figure.topic === topic)
        return (
          <Fold id={topicId(topic)} name={topic} holds={`${ofTopic.length}`}>
            {ofTopic.map((figure) => (
              <details class="source-figure">
                <summary>
                  {figure.rule} <span class="hint">{figure.unit}</span>
                </summary>
                <p class="source">
                  <cite>
                    {figure.source} {figure.note ?? ''}
                  </cite>
                </p>
                <DataTable
                  caption={figure.rule}
                  hideCaption
                  rows={figure.values}
                  columns={[
                    { title: 'Year', isHeader: true, cell: (one) => one.year },
                    { title: 'Value', cell: (one) => one.value },
                    { title: 'How obtained', cell: (one) => obtainedWords[one.obtained] ?? one.obtained },
                  ]}
                />
                <p class="hint">Later years: {figure.after}</p>
              </details>
            ))}
          </Fold>
        )
      })}
    </>
  )
}

const obtainedWords: Record<string, string> = {
  read: 'read in the source',
  secondHand: 'second hand: read in a text that tells of it',
  memory: 'from memory, not seen in the source',
  computed: 'computed from figures that were read',
}

const topicId = (topic: string): string => `topic-${topic.toLowerCase().replaceAll(/\W+/g, '-')}`
