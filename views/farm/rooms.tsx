// The rooms behind the farm's first page, each about one thing, all over the same figures.
import type { Child } from 'hono/jsx'
import type { FarmFigures } from '#today/farm/figures.ts'
import { PageTitle } from '../layout.tsx'
import { unbroken } from '../parts/dollars.tsx'
import { BasicsSection } from './basics.tsx'
import { EnterpriseSection } from './enterprises.tsx'
import { FacilitySection } from './facilities.tsx'
import { FitChart } from './fit-chart.tsx'
import { HerdSection } from './herds.tsx'
import { MarketSection, StepSection } from './markets.tsx'
import { PurchaseSection } from './purchases.tsx'
import { buyingAnswer, enterpriseAnswer, fitAnswer, herdAnswer, marketAnswer } from './room-answers.ts'
import { SoldSection } from './sold.tsx'
import { YearChoice } from './year-choice.tsx'

interface RoomProps {
  figures: FarmFigures
  formId: string
}

interface Room {
  title: string
  purpose: string
  /** Said first, in one sentence. */
  answer?: (figures: FarmFigures) => string | null
  /** Shows one year, which can be chosen. */
  ofYear: boolean
  holds: (props: RoomProps) => Child
}

export const farmRooms = {
  enterprises: {
    title: 'Enterprises',
    purpose: 'Each enterprise by itself: what it sells, costs and takes, and what is left for an hour of it.',
    answer: enterpriseAnswer,
    ofYear: true,
    holds: ({ figures }) => (
      <>
        <EnterpriseSection figures={figures} />
        <SoldSection figures={figures} />
      </>
    ),
  },
  markets: {
    title: 'Markets',
    purpose: 'Where it is sold: what each market takes and costs, and what an hour there sells.',
    answer: marketAnswer,
    ofYear: true,
    holds: ({ figures, formId }) => <MarketSection figures={figures} formId={formId} />,
  },
  herds: {
    title: 'Herds and flocks',
    purpose: 'How the stock grows, what it has taken and given, and when it has paid itself back.',
    answer: herdAnswer,
    ofYear: false,
    holds: ({ figures }) => <HerdSection figures={figures} />,
  },
  buying: {
    title: 'Buying',
    purpose: 'What the farm buys from its own cash, when cash allows it, what it takes and what it gives.',
    answer: buyingAnswer,
    ofYear: false,
    holds: ({ figures, formId }) => <PurchaseSection figures={figures} formId={formId} />,
  },
  fit: {
    title: 'Does it all fit?',
    purpose: 'Stock, markets, room, land, feed and hands, season by season, and what there is of each.',
    answer: fitAnswer,
    ofYear: true,
    holds: ({ figures }) => (
      <>
        <FitChart rows={figures.fit} />
        <StepSection figures={figures} />
        <FacilitySection facilities={figures.facilities} />
        <BasicsSection figures={figures} />
      </>
    ),
  },
} as const satisfies Record<string, Room>

export type FarmRoom = keyof typeof farmRooms

export const FarmRoomPage = ({ room, ...props }: RoomProps & { room: FarmRoom }) => {
  const { title, purpose, answer, ofYear, holds } = farmRooms[room] as Room
  const says = answer?.(props.figures) ?? null
  return (
    <>
      <PageTitle purpose={purpose}>{title}</PageTitle>
      {says === null ? null : <p class="answer">{unbroken(says)}</p>}
      {ofYear ? <YearChoice figures={props.figures} action={`/farm/${room}`} /> : null}
      {holds(props)}
    </>
  )
}
