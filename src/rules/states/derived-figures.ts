// Figures that the states' rules name and that are worked from others: each with those it needs and how it is worked.
import { derived, person, type ReturnForm, setEach, setFigure, whole } from './return-form.ts'

export type DerivedName = keyof typeof derived

interface Derived {
  needs: readonly DerivedName[]
  work(form: ReturnForm): void
}

const at = ({ v }: ReturnForm, place: number): number => v[place]!
const own = ({ v }: ReturnForm, place: number, filer: number): number => v[place + 1 + filer]!

const kindsOfIncome = [
  person.wages,
  person.selfEmployment,
  person.interest,
  person.dividends,
  derived.gains,
  person.pension,
  person.ira,
  person.socialSecurityTaxable,
  person.rental,
  person.other,
]
const aged = 65
const mayDraw = 62

/** Of the return: `value` worked once. */
const once = (
  name: DerivedName,
  value: (form: ReturnForm) => number,
  needs: readonly DerivedName[] = [],
): Derived => {
  const place = derived[name]
  return { needs, work: (form) => setFigure(form, place, value(form)) }
}

/** Of each filer. */
const each = (
  name: DerivedName,
  value: (form: ReturnForm, filer: number) => number,
  needs: readonly DerivedName[] = [],
): Derived => {
  const place = derived[name]
  return {
    needs,
    work: (form) => setEach(form, place, value(form, 0), form.filers === 2 ? value(form, 1) : 0),
  }
}

/** The smaller of the two filers' values; of one alone, that one's. */
const smaller = (form: ReturnForm, value: (form: ReturnForm, filer: number) => number): number =>
  form.filers === 2 ? Math.min(value(form, 0), value(form, 1)) : value(form, 0)

const sumOfFilers = (form: ReturnForm, value: (form: ReturnForm, filer: number) => number): number =>
  value(form, 0) + (form.filers === 2 ? value(form, 1) : 0)

const grossOf = (form: ReturnForm, filer: number): number => {
  let sum = 0
  for (let k = 0; k < kindsOfIncome.length; k += 1) sum += own(form, kindsOfIncome[k]!, filer)
  return sum
}

const workPay = (form: ReturnForm, filer: number): number =>
  own(form, person.wages, filer) +
  own(form, person.selfEmployment, filer) -
  own(form, person.halfSeTax, filer)
const withPension = (form: ReturnForm, filer: number): number =>
  workPay(form, filer) + own(form, person.pension, filer)
const withBenefits = (form: ReturnForm, filer: number): number =>
  withPension(form, filer) + own(form, person.socialSecurityTaxable, filer)

const povertyLine = (form: ReturnForm, people: number): number =>
  at(form, whole.povertyFirst) + at(form, whole.povertyEach) * (Math.max(1, people) - 1)

const peopleOf = (form: ReturnForm): number => form.filers + form.dependents

const agedFilers = ({ age, filers }: ReturnForm): number =>
  (age[0] >= aged ? 1 : 0) + (filers === 2 && age[1] >= aged ? 1 : 0)

/** Gains less losses of each filer, a net loss within the limit. */
const workGains = (form: ReturnForm): void => {
  const first = own(form, person.longTermGains, 0) + own(form, person.shortTermGains, 0)
  const second = own(form, person.longTermGains, 1) + own(form, person.shortTermGains, 1)
  const net = first + second
  const limit = at(form, whole.capitalLossLimit)
  const part = net < -limit ? -limit / net : 1
  setEach(form, derived.gains, first * part, second * part)
}

const workLongNet = (form: ReturnForm): void => {
  const long = at(form, person.longTermGains)
  const net = Math.max(0, Math.min(long, long + at(form, person.shortTermGains)))
  const part = long > 0 ? net / long : 0
  setEach(
    form,
    derived.longNet,
    own(form, person.longTermGains, 0) * part,
    own(form, person.longTermGains, 1) * part,
  )
}

/** Each kind of income where it is one, Social Security whole. */
const positiveKinds = (form: ReturnForm): number => {
  let sum = 0
  for (const place of kindsOfIncome)
    sum += Math.max(0, at(form, place === person.socialSecurityTaxable ? person.socialSecurity : place))
  return sum
}

/** Federal income of the filer with less of it, without benefits and without the pension of one of 65. */
const lesserOwn = (form: ReturnForm): number => {
  const total = sumOfFilers(form, (f, filer) => Math.max(0, own(f, derived.gross, filer)))
  const part = total === 0 ? 0 : at(form, whole.federalAgi) / total
  return Math.max(
    0,
    smaller(
      form,
      (f, filer) =>
        part * Math.max(0, own(f, derived.gross, filer)) -
        own(f, person.socialSecurityTaxable, filer) -
        (f.age[filer]! >= aged ? own(f, person.pension, filer) : 0),
    ),
  )
}

export const derivedFigures: Readonly<Record<DerivedName, Derived>> = {
  one: once('one', () => 1),
  size: once('size', peopleOf),
  agedCount: once('agedCount', agedFilers),
  agedBlindBoxes: once(
    'agedBlindBoxes',
    (form) => agedFilers(form) + form.blind[0] + (form.filers === 2 ? form.blind[1] : 0),
  ),
  olderAge: once('olderAge', ({ age, filers }) => (filers === 2 ? Math.max(age[0], age[1]) : age[0])),
  youngerAge: once('youngerAge', ({ age, filers }) => (filers === 2 ? Math.min(age[0], age[1]) : age[0])),
  age: each('age', ({ age }, filer) => age[filer]!),
  qualifyingChildren: once('qualifyingChildren', (form) => form.children),
  povertyLine: once('povertyLine', (form) => povertyLine(form, peopleOf(form))),
  povertyLineUpTo4: once('povertyLineUpTo4', (form) => povertyLine(form, Math.min(4, peopleOf(form)))),
  federalStandardDeduction: once(
    'federalStandardDeduction',
    (form) =>
      at(form, whole.federalBasicDeduction) +
      at(form, derived.agedBlindBoxes) * at(form, whole.federalAgedAddition),
    ['agedBlindBoxes'],
  ),
  gains: { needs: [], work: workGains },
  longNet: { needs: [], work: workLongNet },
  earned: each('earned', workPay),
  retirement: each(
    'retirement',
    (form, filer) => own(form, person.pension, filer) + own(form, person.ira, filer),
  ),
  profit: once('profit', (form) => Math.max(0, at(form, person.selfEmployment))),
  wagesAndProfit: once(
    'wagesAndProfit',
    (form) => at(form, person.wages) + Math.max(0, at(form, person.selfEmployment)),
  ),
  selfEmploymentLoss: once('selfEmploymentLoss', (form) =>
    sumOfFilers(form, (f, filer) => Math.max(0, -own(f, person.selfEmployment, filer))),
  ),
  gross: each('gross', grossOf, ['gains']),
  ownIncome: each(
    'ownIncome',
    (form, filer) => own(form, derived.gross, filer) - own(form, person.halfSeTax, filer),
    ['gross'],
  ),
  householdGross: once('householdGross', (form) => at(form, derived.gross), ['gross']),
  grossPositive: once('grossPositive', positiveKinds, ['gains']),
  grossAllMoney: once('grossAllMoney', positiveKinds, ['gains']),
  grossFrom62: once(
    'grossFrom62',
    (form) =>
      sumOfFilers(form, (f, filer) =>
        f.age[filer]! >= mayDraw
          ? Math.max(0, own(f, derived.gross, filer) - own(f, person.socialSecurityTaxable, filer))
          : 0,
      ),
    ['gross'],
  ),
  iraOwn: each(
    'iraOwn',
    (form, filer) => own(form, person.ira, filer) - own(form, person.iraInherited, filer),
  ),
  retirementFrom62: once(
    'retirementFrom62',
    (form) =>
      sumOfFilers(form, (f, filer) => (f.age[filer]! >= mayDraw ? own(f, derived.retirement, filer) : 0)),
    ['retirement'],
  ),
  federalTaxNet: once('federalTaxNet', (form) =>
    Math.max(0, at(form, whole.federalTax) - at(form, whole.eitc) - at(form, whole.childCreditRefundable)),
  ),
  federalTaxNetOfChild: once('federalTaxNetOfChild', (form) =>
    Math.max(0, at(form, whole.federalTax) - at(form, whole.childCreditRefundable)),
  ),
  earnedOrAgi: once('earnedOrAgi', (form) => Math.max(at(form, derived.earned), at(form, whole.federalAgi)), [
    'earned',
  ]),
  adjustmentsLessHalfSeTax: once(
    'adjustmentsLessHalfSeTax',
    (form) => at(form, whole.adjustments) - at(form, person.halfSeTax),
  ),
  investment: once(
    'investment',
    (form) =>
      at(form, person.interest) +
      at(form, person.dividends) +
      Math.max(0, at(form, derived.gains)) +
      at(form, person.exemptInterest),
    ['gains'],
  ),
  halfSocialSecurity: once('halfSocialSecurity', (form) => at(form, person.socialSecurity) / 2),
  untaxedSocialSecurity: once(
    'untaxedSocialSecurity',
    (form) => at(form, person.socialSecurity) - at(form, person.socialSecurityTaxable),
  ),
  householdIncome: once(
    'householdIncome',
    (form) =>
      at(form, whole.federalAgi) + at(form, person.exemptInterest) + at(form, derived.untaxedSocialSecurity),
    ['untaxedSocialSecurity'],
  ),
  householdResources: once('householdResources', (form) => Math.max(0, at(form, derived.householdIncome)), [
    'householdIncome',
  ]),
  lesserEarned: once(
    'lesserEarned',
    (form) => (form.filers === 2 ? smaller(form, (f, filer) => own(f, derived.earned, filer)) : 0),
    ['earned'],
  ),
  lesserGrossEarned: once('lesserGrossEarned', (form) =>
    form.filers === 2
      ? smaller(form, (f, filer) =>
          Math.max(0, own(f, person.wages, filer) + own(f, person.selfEmployment, filer)),
        )
      : 0,
  ),
  lesserQualifying: once(
    'lesserQualifying',
    (form) => smaller(form, (f, filer) => own(f, derived.earned, filer) + own(f, derived.retirement, filer)),
    ['earned', 'retirement'],
  ),
  marriageIncome: once('marriageIncome', (form) => sumOfFilers(form, withBenefits)),
  lesserMarriage: once('lesserMarriage', (form) => smaller(form, withBenefits)),
  pensionAndEarned: once('pensionAndEarned', (form) => sumOfFilers(form, withPension)),
  lesserPensionAndEarned: once('lesserPensionAndEarned', (form) => smaller(form, withPension)),
  lesserOwnLessPension: once('lesserOwnLessPension', lesserOwn, ['gross']),
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
