// The questions of Schedule C of one venture.
import type { Cents } from '#money/cents.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { fieldOf, Hidden, Select } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import { Beginning } from './beginning.tsx'
import {
  BusinessFields,
  HomeField,
  type LineNames,
  PaperFields,
  VehicleFields,
  yesNoOptions,
} from './business-fields.tsx'
import type { InputForm } from './inputs-shape.ts'
import { profitInWords } from './tax/profit-in-words.ts'

interface VentureFormProps {
  year: number
  side: { id: string; name: string }
  form: InputForm
  people: readonly { id: string; name: string }[]
  isOwn: boolean
  netProfitCents: Cents
}

const lines: LineNames = {
  product: 'Line A',
  code: 'Line B',
  employerId: 'Line D',
  takesPart: 'Line G',
  owes1099: 'Line I',
  files1099: 'Line J',
  atRisk: 'Line 32',
  vehicle: 'line 9 and Part IV',
}

export const VentureFormPage = ({ year, side, form, people, isOwn, netProfitCents }: VentureFormProps) => (
  <>
    <PageTitle purpose="What the venture’s form asks and the books do not know. Leave empty what does not touch you.">
      Schedule C of {side.name}, {year}
    </PageTitle>
    <ErrorSummary errors={form.errors} />
    <p class="answer">{profitInWords(side.name, { year, netProfitCents }, isOwn)}</p>
    <p>
      <a href={`/year-pack?year=${year}#${side.id}-schedule-c`}>Back to the form’s summary</a>
      {isOwn ? null : '. What goes on from an earlier year is filled in.'}
    </p>
    <Caution askWhom="a licensed tax preparer">
      Miles, the part of the home and what is a cost of goods sold have conditions that are not all asked
      here.
    </Caution>
    <form method="post" class="pack-form" action={`/year-pack/schedule-c/${side.id}?year=${year}`}>
      <Hidden name="basedOn" value={form.typed.value('basedOn')} />
      {people.length > 1 ? (
        <Select
          {...fieldOf(form, 'person')}
          label="Who runs it"
          hint="Its profit, and self-employment tax on it, are this person’s."
          options={people.map(({ id, name }) => ({ value: id, label: name }))}
          empty="As the plan says of the venture of this name"
        />
      ) : null}
      <BusinessFields form={form} lines={lines} />
      <Select
        {...fieldOf(form, 'began')}
        label="Line H: it began in this year"
        options={yesNoOptions}
        empty="Not entered, or by the day below"
      />
      <PaperFields form={form} lines={lines} year={year} />
      <VehicleFields form={form} line={lines.vehicle} />
      <HomeField form={form} />
      <Beginning
        form={form}
        what="the business"
        not="equipment and goods to sell"
        like="the first work offered or done for pay"
      />
      <OverClosed typed={form.typed} errors={form.errors} />
      <ButtonRow>
        <Button>Save</Button>
      </ButtonRow>
    </form>
  </>
)
