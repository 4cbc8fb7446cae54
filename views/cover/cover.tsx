// Health: what income costs and where it has room first; the credit, who is covered, tax so far and the place have rooms of their own.

import type { Child } from 'hono/jsx'
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'
import type { CoverFigures, YearInSight } from '#today/cover/figures.ts'
import type { HelpKey } from '../help-texts.ts'
import { PageTitle } from '../layout.tsx'
import { Button, LinkButton } from '../parts/button.tsx'
import { fieldOf, MoneyField, Select } from '../parts/field.tsx'
import { Caution, EmptyState, Notice, Part } from '../parts/message.tsx'
import { CoverageByIncome, CoveredNow } from './bands.tsx'
import { CreditAnswer, CreditChart, KeptChart, Standing } from './credit.tsx'
import { IncomeLine, OnTheWay, RoomAnswer } from './income-line.tsx'
import { NoCoverage } from './no-coverage.tsx'
import { PaidEachMonth } from './paid-in-months.tsx'
import { PlaceOfCover } from './place.tsx'
import { RoomTable } from './room.tsx'
import { TaxSoFar } from './tax-so-far.tsx'
import { MedicareMove, PremiumByAge, WhoIsCovered } from './years.tsx'

export interface CoverPageProps {
  room: CoverRoom
  figures: CoverFigures
  typed: { value(name: string): string }
  errors: Readonly<Record<string, string>>
}

type Read = Extract<CoverFigures, { status: 'read' }>

interface RoomView {
  path: string
  title: string
  purpose: string
  view(props: CoverPageProps & { figures: Read }): Child
}

export const coverRooms = {
  income: {
    path: '/cover',
    title: 'Health coverage',
    purpose: 'What coverage costs, and how much more you can earn first.',
    view: (props) => (
      <>
        <Untold {...props} />
        <OfYear
          {...props}
          view={(sight) => (
            <>
              <RoomAnswer sight={sight} />
              {sight.knowsPremiums ? <IncomeLine sight={sight} /> : <PremiumsAsked year={sight.year} />}
              <PaidEachMonth paid={sight.paidInMonths} year={sight.year} />
              <p>
                <CoveredNow sight={sight} />
                <OnTheWay sight={sight} />
              </p>
            </>
          )}
        />
        <Lever {...props} path="/cover" />
        <Part
          of={() =>
            props.figures.inSight ? (
              <>
                <RoomTable sight={props.figures.inSight} />
                <CoverageByIncome sight={props.figures.inSight} />
                <NoCoverage
                  kinds={kindsIn(props.figures.inSight)}
                  fullCost={props.figures.childrenAtFullCost}
                />
              </>
            ) : null
          }
        />
      </>
    ),
  },
  credit: {
    path: '/cover/credit',
    title: 'The credit by income',
    purpose: 'The premium tax credit over income, and where a dollar more costs more than a dollar.',
    view: (props) => (
      <>
        <OfYear
          {...props}
          view={(sight) =>
            sight.knowsPremiums ? (
              <>
                <CreditAnswer sight={sight} />
                <CreditChart sight={sight} />
              </>
            ) : (
              <PremiumsAsked year={sight.year} />
            )
          }
        />
        <Lever {...props} path="/cover/credit" />
        <Part
          of={() =>
            props.figures.inSight?.knowsPremiums ? (
              <>
                <Standing sight={props.figures.inSight} />
                <PaidEachMonth
                  paid={props.figures.inSight.paidInMonths}
                  year={props.figures.inSight.year}
                  withForm
                />
                <KeptChart sight={props.figures.inSight} />
              </>
            ) : null
          }
        />
      </>
    ),
  },
  years: {
    path: '/cover/years',
    title: 'Who is covered',
    purpose: 'Year by year: who is covered by what, what it costs, and the move to Medicare.',
    view: ({ figures }) => (
      <>
        <Untold figures={figures} />
        <Part of={() => <WhoIsCovered rows={figures.rows} thisMonth={figures.month} />} />
        <NoCoverage
          kinds={figures.rows.flatMap(({ people }) =>
            people.flatMap(({ cover }) => cover.map(({ kind }) => kind)),
          )}
          fullCost={figures.childrenAtFullCost}
        />
        <Part of={() => <MedicareMove starts={figures.medicare} />} />
      </>
    ),
  },
  tax: {
    path: '/cover/tax',
    title: 'Tax so far',
    purpose: 'What to set aside for this year’s tax so far, and when it is due.',
    view: ({ figures }) => <Part of={() => <TaxOfBooks tax={figures.tax} />} />,
  },
  place: {
    path: '/cover/place',
    title: 'Where you live',
    purpose:
      'The premiums of your county over the years and by age, and the income limits of your state’s programs.',
    view: ({ figures }) => (
      <>
        <Part of={() => <PlaceOfCover place={figures.place} />} />
        <Part
          of={() => (
            <PremiumByAge
              ages={figures.premiumByAge}
              rows={figures.rows}
              year={figures.year}
              ageRating={figures.ageRating}
            />
          )}
        />
      </>
    ),
  },
} satisfies Record<string, RoomView>

export type CoverRoom = keyof typeof coverRooms

/** Each page is helped with what is on it. */
const coverHelp = {
  income: 'cover',
  credit: 'coverCredit',
  years: 'coverYears',
  tax: 'coverTax',
  place: 'coverPlace',
} as const satisfies Record<CoverRoom, HelpKey>

export const CoverPage = (props: CoverPageProps) => {
  const { title, purpose } = coverRooms[props.room]
  return (
    <>
      <PageTitle help={coverHelp[props.room]} purpose={purpose}>
        {title}
      </PageTitle>
      <CoverBody {...props} />
      <CoverCaution />
    </>
  )
}

const CoverCaution = () => (
  <Caution askWhom="a marketplace navigator, a licensed tax preparer or the agency itself">
    A wrong income estimate can mean a premium tax credit to be paid back, or no coverage. Medicaid looks at
    the present month, the credit at the whole year.
  </Caution>
)

const CoverBody = (props: CoverPageProps) => {
  const { figures } = props
  if (figures.status === 'none') {
    return (
      <EmptyState href="/start/who" action="Enter who you are">
        Coverage depends on ages, place and income. Enter who you are and what a month costs first.
      </EmptyState>
    )
  }
  if (figures.status === 'unreadable') {
    return (
      <EmptyState href="/runway" action="Look at the plan">
        The plan cannot be read, so coverage cannot be worked out. {figures.says}
      </EmptyState>
    )
  }
  if (figures.status === 'no-years') {
    return (
      <>
        <EmptyState href="/runway" action="Look at the plan">
          The plan ends before a whole tax year of it is known.
        </EmptyState>
        {props.room === 'tax' ? <TaxOfBooks tax={figures.tax} /> : null}
      </>
    )
  }
  return coverRooms[props.room].view({ ...props, figures })
}

const TaxOfBooks = ({ tax }: { tax: Read['tax'] }) =>
  tax ? (
    <TaxSoFar tax={tax} />
  ) : (
    <EmptyState href="/books" action="Look at the books">
      The books hold nothing of this tax year yet.
    </EmptyState>
  )

/** Which year, and which household income, to look at. Sent by GET: nothing is kept. */
const Lever = ({ figures, typed, errors, path }: CoverPageProps & { figures: Read; path: string }) => (
  <form method="get" action={path} class="lever no-print">
    <div class="field-row">
      <Select
        name="year"
        label="Year"
        value={typed.value('year') || String(figures.year)}
        error={errors.year}
        options={figures.rows.map((row) => ({ value: String(row.year), label: String(row.year) }))}
      />
      <MoneyField
        {...fieldOf({ typed, errors }, 'income')}
        label="Household income"
        hint="Leave blank to use the plan"
      />
    </div>
    {/* Where nobody is covered yet, entering that is next. */}
    <Button quiet={!figures.inSight?.knowsPremiums}>Show</Button>{' '}
    <LinkButton quiet href="/cover/marketplace">
      Change who is covered and premiums
    </LinkButton>
  </form>
)

/** What a first year begun within takes of the months before it. */
const Untold = ({ figures: { untold, year } }: { figures: Read }) =>
  untold === null ? null : (
    <Notice>
      <p>
        Nothing is entered of {untold}. The return of {year} and the state’s programs count that nothing was
        earned in these months, and no tax paid. <a href="/runway/plan/tax">Enter what came in</a> to make
        both true.
      </p>
    </Notice>
  )

const OfYear = ({ figures, view }: { figures: Read; view: (sight: YearInSight) => Child }) => (
  <Part of={() => (figures.inSight ? view(figures.inSight) : <NobodyCovered year={figures.year} />)} />
)

const PremiumsAsked = ({ year }: { year: number }) => (
  <EmptyState href="/cover/marketplace" action="Enter who is covered and premiums">
    Who would buy on the marketplace in {year}, and what its plans charge, is not in the plan yet. With both,
    this page shows the credit and what more income costs.
  </EmptyState>
)

const NobodyCovered = ({ year }: { year: number }) => (
  <EmptyState href="/cover/marketplace" action="Enter who is covered and premiums">
    You have not entered who is insured through the marketplace in {year}. With the premium of your plan and
    of the benchmark plan, this page shows the credit and how much more you may earn.
  </EmptyState>
)

const kindsIn = ({ bands }: YearInSight): CoverageKind[] =>
  bands.flatMap(({ people }) => people.flatMap(({ kind, later }) => [kind, ...later.map((one) => one.kind)]))
