// Published usual figures: the choice of what they are for, and one of them below its field with where it comes from.

import { isMoney, type UsualFigure, type UsualSource } from '#farm/usual/usual-figures.ts'
import { formatDollars, formatDollarsAndCents, formatPercent } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { Suggestion } from '#plan/form/nodes.ts'
import { takeAll, type UsualChoice } from '#plan/form/usual.ts'
import { Button } from '../button.tsx'
import { Checkbox, Hidden, Select } from '../field.tsx'
import { Fold } from '../fold.tsx'
import { Notice } from '../message.tsx'

export const UsualChoiceFields = ({
  kinds,
  chosen,
  kept,
  pricesOf,
  lastYear,
  isNew,
  missing,
}: UsualChoice) => (
  <Fold
    name="Published figures to begin with"
    holds={chosen?.name ?? (kept ? `begun with ${kept.name}` : 'none shown')}
    isOpen={chosen !== null || isNew}
  >
    {chosen ? <Hidden name="usualShown" value="yes" /> : null}
    <fieldset class="group usual-choice no-print">
      <legend class="hidden-text">Published figures to begin with</legend>
      <p class="hint">
        They are below the fields as suggestions, each with its source. Your own take their place as soon as
        you know them.
      </p>
      <div class="field-row">
        <Select
          name="usual"
          label="Figures for"
          value={chosen?.id ?? kept?.id ?? ''}
          empty="None"
          options={kinds.map(({ id, name }) => ({ value: id, label: name }))}
        />
        <Button quiet name="show" value="usual">
          Show them
        </Button>
        {chosen ? (
          <Button quiet name="take" value={takeAll}>
            Fill the empty fields
          </Button>
        ) : null}
      </div>
      <Checkbox
        name="usualPrices"
        label={`Bring their dollars to the prices of ${pricesOf ?? lastYear}`}
        hint="By consumer prices, where the year of the dollars is known; else as printed"
        checked={pricesOf !== null}
      />
      {chosen?.says ? <p class="hint">{chosen.says}</p> : null}
      {chosen && missing.length > 0 ? (
        <Notice>
          <p>
            The figures for {chosen.name} hold no {missing.join(' and no ')}. Enter your own: left empty, the
            plan counts on none{missing.includes('costs') ? ', and takes all that is sold for net' : ''}.
          </p>
        </Notice>
      ) : null}
    </fieldset>
  </Fold>
)

/** One below its field, the one that stands there before others; what else was published folds behind it, so that rows stay level. */
export const UsualNote = ({ usual, of }: { usual: readonly Suggestion[] | undefined; of: string }) => {
  if (usual === undefined) return null
  const [first, ...others] = usual.toSorted((a, b) => Number(b.stands ?? false) - Number(a.stands ?? false))
  return (
    <div class="usuals">
      {first ? <UsualOne one={first} of={of} /> : null}
      {others.length > 0 ? (
        <details class="usual-others">
          <summary>
            {others.length} more<span class="hidden-text"> for {of}</span>
          </summary>
          {others.map((one) => (
            <UsualOne one={one} of={of} />
          ))}
        </details>
      ) : null}
    </div>
  )
}

const UsualOne = ({ one, of }: { one: Suggestion; of: string }) => (
  <div class="usual">
    {one.figure === null ? (
      <p>These figures are {one.holds}.</p>
    ) : (
      <details>
        <summary>
          {one.stands ? 'As published: ' : 'Usual: '}
          {amountOf(one.figure)}
          {whichMoney(one.figure)}
        </summary>
        <WhereFrom {...one} figure={one.figure} />
      </details>
    )}
    {one.stands ? null : (
      <Button small quiet name="take" value={one.taken} label={`Take it: ${takenWords(one)} for ${of}`}>
        Take it
      </Button>
    )}
  </div>
)

const takenWords = (one: Suggestion): string =>
  one.figure === null ? one.types[0]![1] : amountOf(one.figure)

const amountOf = (figure: UsualFigure): string => `${valueText(figure, figure.value)}${unitAfter(figure)}`

/** Beside the figure itself: a form asks for today's prices, and this may be of another year, or no price that was paid. */
const whichMoney = (figure: UsualFigure): string => {
  const isBreakEven = figure.isBreakEven ? ', a break-even price: it leaves nothing over' : ''
  if (!isMoney(figure)) return ''
  return `${figure.dollarsYear ? `, dollars of ${figure.dollarsYear}` : ', year of its dollars not printed'}${isBreakEven}`
}

/** `dollars a bird` is said by the sign and `a bird`, `share of cows` by the percent and `of cows`. */
const unitAfter = ({ unit, value }: UsualFigure): string => {
  const rest = (value === 1 ? unit.replace(/^acres\b/, 'acre') : unit).replace(/^(dollars|share) ?/, '')
  return rest === '' ? '' : ` ${rest}`
}

const valueText = (figure: UsualFigure, value: UsualFigure['value']): string => {
  if (typeof value !== 'number') return allOf(value.map(String))
  if (isMoney(figure)) return value % 1 === 0 ? formatDollars(value) : formatDollarsAndCents(value)
  return figure.unit.startsWith('share') ? formatPercent(value, 1) : value.toLocaleString('en-US')
}

const WhereFrom = ({ figure, source, broughtFrom }: Suggestion & { figure: UsualFigure }) => (
  <>
    <p>
      {[
        figure.low === undefined
          ? null
          : `From ${valueText(figure, figure.low)} to ${valueText(figure, figure.high!)}`,
        dollarsOf(figure, broughtFrom),
        figure.place ? placeOf(figure.place) : null,
        obtainedWords[figure.obtained],
      ]
        .filter(Boolean)
        .join('. ')}
      .
    </p>
    {figure.sum ? <p>Worked out: {figure.sum}.</p> : null}
    {figure.note ? <p>{figure.note}.</p> : null}
    {source && source.kind !== 'memory' ? <SourceLine source={source} /> : null}
  </>
)

const placeOf = (place: string): string => place.replace(/^./, (letter) => letter.toUpperCase())

const dollarsOf = (figure: UsualFigure, broughtFrom: number | null): string | null => {
  if (!isMoney(figure)) return null
  if (broughtFrom !== null)
    return `Printed in dollars of ${broughtFrom}, brought to prices of ${figure.dollarsYear} by the consumer price index`
  return figure.dollarsYear ? `In dollars of ${figure.dollarsYear}` : 'The year of its dollars is not printed'
}

const obtainedWords: Readonly<Record<UsualFigure['obtained'], string>> = {
  read: 'Read in the beginning of the text: look it up there before you rely on it',
  secondHand: 'Second hand',
  memory: 'From memory, not checked',
  computed: 'Worked out from figures that were read',
}

const SourceLine = ({ source }: { source: UsualSource }) => (
  <p class="source">
    Source:{' '}
    {[source.author, source.title, source.publisher, source.number, source.year].filter(Boolean).join(', ')}
    {source.address ? (
      <>
        , <span class="address">{source.address}</span>
      </>
    ) : null}
  </p>
)
