// `dooryard sources`: prints every figure from outside that the project uses, with unit, year, source and how it was obtained.
import { type OutsideFigure, outsideFigures } from '../outside-figures.ts'
import { type Command, CommandError, type CommandIo } from './command.ts'

const help = `dooryard sources [--json] [WORD…]

Prints every figure from outside that the project uses: the law by year, market history, the life table.
Each line: year, value, and read (seen in the source), memory (recalled, not seen) or computed (from figures that were read).
With words, only figures whose topic, rule or source has them all.
--json   the same as JSON`

export const sourcesCommand: Command = {
  name: 'sources',
  summary: 'Lists every figure from outside: value, unit, year, source, read or recalled.',
  help,
  async run(args, io) {
    const unknown = args.find((arg) => arg.startsWith('--') && arg !== '--json')
    if (unknown) throw new CommandError(`There is no option ${unknown}. Try --json, or words to look for`, 2)
    const words = args.filter((arg) => !arg.startsWith('--')).map((word) => word.toLowerCase())
    const figures = outsideFigures().filter((figure) => hasAll(figure, words))
    if (args.includes('--json')) io.out(JSON.stringify(figures, null, 2))
    else printAll(figures, io)
    return 0
  },
}

const hasAll = ({ topic, rule, source }: OutsideFigure, words: readonly string[]): boolean => {
  const text = `${topic} ${rule} ${source}`.toLowerCase()
  return words.every((word) => text.includes(word))
}

const printAll = (figures: readonly OutsideFigure[], io: CommandIo): void => {
  let topic = ''
  for (const figure of figures) {
    if (figure.topic !== topic) io.out(`\n== ${figure.topic}`)
    topic = figure.topic
    io.out(`\n${figure.rule}`)
    io.out(`  unit: ${figure.unit}`)
    io.out(`  source: ${figure.source}`)
    if (figure.note) io.out(`  note: ${figure.note}`)
    for (const { year, value, obtained } of figure.values) io.out(`  ${year}  ${value}  (${obtained})`)
    io.out(`  later: ${figure.after}`)
  }
  const values = figures.flatMap((figure) => figure.values)
  const count = (way: string) => values.filter((value) => value.obtained === way).length
  io.out(
    `\n${figures.length} figures and tables, ${values.length} values: ${count('read')} read, ${count('secondHand')} second hand, ${count('memory')} from memory, ${count('computed')} computed from read figures.`,
  )
}
