// The words we use, in one place: our own, those of the trade, and those of law.
import { PageTitle } from '../layout.tsx'
import { type GlossaryWord, wordId, words } from './glossary.ts'

export const WordsPage = () => (
  <>
    <PageTitle purpose="The same words mean the same thing on every page.">Words we use</PageTitle>
    {groups.map((group) => (
      <section aria-labelledby={`words-${group.from}`}>
        <h2 id={`words-${group.from}`}>{group.title}</h2>
        <WordList from={group.from} />
      </section>
    ))}
  </>
)

const groups = [
  { from: 'ours', title: 'Our own' },
  { from: 'trade', title: 'Of the trade' },
  { from: 'law', title: 'Of law and agencies' },
] as const

const WordList = ({ from }: { from: GlossaryWord['from'] }) => (
  <dl class="words">
    {words()
      .filter((one) => one.from === from)
      .map((one) => (
        <div id={wordId(one.word)}>
          <dt>{one.word}</dt>
          <dd>{one.means}</dd>
        </div>
      ))}
  </dl>
)
