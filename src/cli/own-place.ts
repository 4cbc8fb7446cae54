// Where a command that writes finds the books: closed to others and cleared of what killed processes left.
import { type DataPlace, dataPlace } from '#db/data-place.ts'
import { fileProblem } from '#db/file-problem.ts'
import { tidyPlace } from '#db/half.ts'
import { CommandError, type CommandIo } from './command.ts'

export const ownPlace = (data: string | undefined, io: CommandIo, name?: string): DataPlace => {
  const place = dataPlace({ data, env: io.env, ...(name === undefined ? {} : { name }) })
  try {
    tidyPlace(place)
    return place
  } catch (error) {
    const problem = fileProblem(error, place.folder)
    if (!problem) throw error
    throw new CommandError(problem.message)
  }
}
