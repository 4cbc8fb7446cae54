// `npm run reading`: the school grade of each page of the sample, hardest first, and its hardest sentences with `-- ADDRESS`.
import { navigation, roomsOf } from '#web/forms/navigation.ts'
import { openHouse } from '../browser/house.ts'
import { gradeOf, sentencesOf } from './grades.ts'

const most = 8
const house = await openHouse('sample')
const textOf = async (path: string) => await (await fetch(house.base + path)).text()
const [asked] = process.argv.slice(2)
if (asked === undefined) {
  const paths = new Set(
    navigation.flatMap(({ path }) => [path, ...roomsOf(path).map((room) => room.path as string)]),
  )
  const rows: { path: string; grade: number }[] = []
  for (const path of paths) {
    const grade = gradeOf(await textOf(path))
    if (grade !== null) rows.push({ path, grade })
  }
  rows.sort((one, other) => other.grade - one.grade)
  for (const { path, grade } of rows) console.log(`${grade.toFixed(1).padStart(5)}  ${path}`)
  const median = rows[Math.floor(rows.length / 2)]!.grade
  console.log(
    `Median of ${rows.length} pages: grade ${median.toFixed(1)}, ${most} at most. Citations (<cite>) are left out.`,
  )
  process.exitCode = median > most ? 1 : 0
} else {
  const rows = sentencesOf(await textOf(asked)).map((sentence) => ({
    sentence,
    grade: gradeOf(`<p>${sentence}</p>`) ?? 0,
  }))
  rows.sort((one, other) => other.grade - one.grade)
  for (const { sentence, grade } of rows.slice(0, 15))
    console.log(`${grade.toFixed(1).padStart(5)}  ${sentence}`)
}
await house.close()
