// Figures that the states' rules name and that are worked from others: each with those it needs and how it is worked.
import {
  type derivedNames,
  type FigureName,
  places,
  type ReturnForm,
  setEach,
  setFigure,
} from './return-form.ts'

export type DerivedName = (typeof derivedNames)[number]

interface Derived {
  needs: readonly DerivedName[]
  work(form: ReturnForm): void
}

const at = ({ v }: ReturnForm, name: FigureName): number => v[places[name]]!
const own = ({ v }: ReturnForm, name: FigureName, filer: number): number => v[places[name] + 1 + filer]!

const kindsOfIncome = [
  'wages',
  'selfEmployment',
  'interest',
  'dividends',
  'gains',
  'pension',
  'ira',
  'socialSecurityTaxable',
  'rental',
  'other',
] as const
const aged = 65
const mayDraw = 62

/** Of the return: `value` worked once. */
const whole = (
  name: DerivedName,
  value: (form: ReturnForm) => number,
  needs: readonly DerivedName[] = [],
): Derived => ({ needs, work: (form) => setFigure(form, places[name], value(form)) })

/** Of each filer. */
const each = (
  name: DerivedName,
  value: (form: ReturnForm, filer: number) => number,
  needs: readonly DerivedName[] = [],
): Derived => ({
  needs,
  work: (form) => setEach(form, places[name], value(form, 0), form.filers === 2 ? value(form, 1) : 0),
})

/** The smaller of the two filers' values; of one alone, that one's. */
const smaller = (form: ReturnForm, value: (form: ReturnForm, filer: number) => number): number =>
  form.filers === 2 ? Math.min(value(form, 0), value(form, 1)) : value(form, 0)

const sumOfFilers = (form: ReturnForm, value: (form: ReturnForm, filer: number) => number): number =>
  value(form, 0) + (form.filers === 2 ? value(form, 1) : 0)

const grossOf = (form: ReturnForm, filer: number): number => {
  let sum = 0
  for (const name of kindsOfIncome) sum += own(form, name, filer)
  return sum
}

const workPay = (form: ReturnForm, filer: number): number =>
  own(form, 'wages', filer) + own(form, 'selfEmployment', filer) - own(form, 'halfSeTax', filer)
const withPension = (form: ReturnForm, filer: number): number =>
  workPay(form, filer) + own(form, 'pension', filer)
const withBenefits = (form: ReturnForm, filer: number): number =>
  withPension(form, filer) + own(form, 'socialSecurityTaxable', filer)

const povertyLine = (form: ReturnForm, people: number): number =>
  at(form, 'povertyFirst') + at(form, 'povertyEach') * (Math.max(1, people) - 1)

const peopleOf = (form: ReturnForm): number => form.filers + form.dependants

const agedFilers = ({ age, filers }: ReturnForm): number =>
  (age[0] >= aged ? 1 : 0) + (filers === 2 && age[1] >= aged ? 1 : 0)

/** Gains less losses of each filer, a net loss within the limit. */
const workGains = (form: ReturnForm): void => {
  const first = own(form, 'longTermGains', 0) + own(form, 'shortTermGains', 0)
  const second = own(form, 'longTermGains', 1) + own(form, 'shortTermGains', 1)
  const net = first + second
  const limit = at(form, 'capitalLossLimit')
  const part = net < -limit ? -limit / net : 1
  setEach(form, places.gains, first * part, second * part)
}

const workLongNet = (form: ReturnForm): void => {
  const long = at(form, 'longTermGains')
  const net = Math.max(0, Math.min(long, long + at(form, 'shortTermGains')))
  const part = long > 0 ? net / long : 0
  setEach(form, places.longNet, own(form, 'longTermGains', 0) * part, own(form, 'longTermGains', 1) * part)
}

/** Each kind of income where it is one, Social Security whole. */
const positiveKinds = (form: ReturnForm): number => {
  let sum = 0
  for (const name of kindsOfIncome)
    sum += Math.max(0, at(form, name === 'socialSecurityTaxable' ? 'socialSecurity' : name))
  return sum
}

/** Federal income of the filer with less of it, without benefits and without the pension of one of 65. */
const lesserOwn = (form: ReturnForm): number => {
  const total = sumOfFilers(form, (f, filer) => Math.max(0, own(f, 'gross', filer)))
  const part = total === 0 ? 0 : at(form, 'federalAgi') / total
  return Math.max(
    0,
    smaller(
      form,
      (f, filer) =>
        part * Math.max(0, own(f, 'gross', filer)) -
        own(f, 'socialSecurityTaxable', filer) -
        (f.age[filer]! >= aged ? own(f, 'pension', filer) : 0),
    ),
  )
}

export const derivedFigures: Readonly<Record<DerivedName, Derived>> = {
  one: whole('one', () => 1),
  size: whole('size', peopleOf),
  agedCount: whole('agedCount', agedFilers),
  agedBlindBoxes: whole(
    'agedBlindBoxes',
    (form) => agedFilers(form) + form.blind[0] + (form.filers === 2 ? form.blind[1] : 0),
  ),
  olderAge: whole('olderAge', ({ age, filers }) => (filers === 2 ? Math.max(age[0], age[1]) : age[0])),
  youngerAge: whole('youngerAge', ({ age, filers }) => (filers === 2 ? Math.min(age[0], age[1]) : age[0])),
  age: each('age', ({ age }, filer) => age[filer]!),
  qualifyingChildren: whole('qualifyingChildren', (form) => form.children),
  povertyLine: whole('povertyLine', (form) => povertyLine(form, peopleOf(form))),
  povertyLineUpTo4: whole('povertyLineUpTo4', (form) => povertyLine(form, Math.min(4, peopleOf(form)))),
  federalStandardDeduction: whole(
    'federalStandardDeduction',
    (form) =>
      at(form, 'federalBasicDeduction') + at(form, 'agedBlindBoxes') * at(form, 'federalAgedAddition'),
    ['agedBlindBoxes'],
  ),
  gains: { needs: [], work: workGains },
  longNet: { needs: [], work: workLongNet },
  earned: each('earned', workPay),
  retirement: each('retirement', (form, filer) => own(form, 'pension', filer) + own(form, 'ira', filer)),
  profit: whole('profit', (form) => Math.max(0, at(form, 'selfEmployment'))),
  wagesAndProfit: whole(
    'wagesAndProfit',
    (form) => at(form, 'wages') + Math.max(0, at(form, 'selfEmployment')),
  ),
  selfEmploymentLoss: whole('selfEmploymentLoss', (form) =>
    sumOfFilers(form, (f, filer) => Math.max(0, -own(f, 'selfEmployment', filer))),
  ),
  gross: each('gross', grossOf, ['gains']),
  ownIncome: each('ownIncome', (form, filer) => own(form, 'gross', filer) - own(form, 'halfSeTax', filer), [
    'gross',
  ]),
  householdGross: whole('householdGross', (form) => at(form, 'gross'), ['gross']),
  grossPositive: whole('grossPositive', positiveKinds, ['gains']),
  grossAllMoney: whole('grossAllMoney', positiveKinds, ['gains']),
  grossFrom62: whole(
    'grossFrom62',
    (form) =>
      sumOfFilers(form, (f, filer) =>
        f.age[filer]! >= mayDraw
          ? Math.max(0, own(f, 'gross', filer) - own(f, 'socialSecurityTaxable', filer))
          : 0,
      ),
    ['gross'],
  ),
  retirementFrom62: whole(
    'retirementFrom62',
    (form) => sumOfFilers(form, (f, filer) => (f.age[filer]! >= mayDraw ? own(f, 'retirement', filer) : 0)),
    ['retirement'],
  ),
  federalTaxNet: whole('federalTaxNet', (form) =>
    Math.max(0, at(form, 'federalTax') - at(form, 'eitc') - at(form, 'childCreditRefundable')),
  ),
  federalTaxNetOfChild: whole('federalTaxNetOfChild', (form) =>
    Math.max(0, at(form, 'federalTax') - at(form, 'childCreditRefundable')),
  ),
  earnedOrAgi: whole('earnedOrAgi', (form) => Math.max(at(form, 'earned'), at(form, 'federalAgi')), [
    'earned',
  ]),
  adjustmentsLessHalfSeTax: whole(
    'adjustmentsLessHalfSeTax',
    (form) => at(form, 'adjustments') - at(form, 'halfSeTax'),
  ),
  investment: whole(
    'investment',
    (form) =>
      at(form, 'interest') +
      at(form, 'dividends') +
      Math.max(0, at(form, 'gains')) +
      at(form, 'exemptInterest'),
    ['gains'],
  ),
  halfSocialSecurity: whole('halfSocialSecurity', (form) => at(form, 'socialSecurity') / 2),
  untaxedSocialSecurity: whole(
    'untaxedSocialSecurity',
    (form) => at(form, 'socialSecurity') - at(form, 'socialSecurityTaxable'),
  ),
  householdIncome: whole(
    'householdIncome',
    (form) => at(form, 'federalAgi') + at(form, 'exemptInterest') + at(form, 'untaxedSocialSecurity'),
    ['untaxedSocialSecurity'],
  ),
  householdResources: whole('householdResources', (form) => Math.max(0, at(form, 'householdIncome')), [
    'householdIncome',
  ]),
  lesserEarned: whole(
    'lesserEarned',
    (form) => (form.filers === 2 ? smaller(form, (f, filer) => own(f, 'earned', filer)) : 0),
    ['earned'],
  ),
  lesserGrossEarned: whole('lesserGrossEarned', (form) =>
    form.filers === 2
      ? smaller(form, (f, filer) => Math.max(0, own(f, 'wages', filer) + own(f, 'selfEmployment', filer)))
      : 0,
  ),
  lesserQualifying: whole(
    'lesserQualifying',
    (form) => smaller(form, (f, filer) => own(f, 'earned', filer) + own(f, 'retirement', filer)),
    ['earned', 'retirement'],
  ),
  marriageIncome: whole('marriageIncome', (form) => sumOfFilers(form, withBenefits)),
  lesserMarriage: whole('lesserMarriage', (form) => smaller(form, withBenefits)),
  pensionAndEarned: whole('pensionAndEarned', (form) => sumOfFilers(form, withPension)),
  lesserPensionAndEarned: whole('lesserPensionAndEarned', (form) => smaller(form, withPension)),
  lesserOwnLessPension: whole('lesserOwnLessPension', lesserOwn, ['gross']),
}

/** The figures that `named` need, each after those it needs itself. */
export const workingOrder = (named: Iterable<string>): DerivedName[] => {
  const order: DerivedName[] = []
  const add = (name: string) => {
    if (!Object.hasOwn(derivedFigures, name) || order.includes(name as DerivedName)) return
    for (const need of derivedFigures[name as DerivedName].needs) add(need)
    order.push(name as DerivedName)
  }
  for (const name of named) add(name)
  return order
}
