import * as z from 'zod';
import { allCommands } from '#db/commands.ts';
import { type Command, STATIONS } from './command.ts';

/** The door as an OpenAPI 3.1 document, made from the schemas that judge the input, so that the two cannot part. */
export function interfaceDescription() {
  return {
    openapi: '3.1.0',
    info: { title: 'Peltry commands', version: '1', description: 'Every change to the book is one of these commands.' },
    paths: Object.fromEntries(allCommands().map((command) => [`/api/commands/${command.name}`, pathOf(command)])),
  };
}

function pathOf(command: Command) {
  const header = (name: string, schema: object) => ({ name, in: 'header', required: true, schema });
  return {
    post: {
      operationId: command.name,
      summary: command.summary,
      description: `Stations: ${command.stations.join(', ')}.`,
      parameters: [
        header('Idempotency-Key', { type: 'string', minLength: 8, maxLength: 80 }),
        header('X-Station', { type: 'string', enum: [...STATIONS] }),
      ],
      requestBody: {
        required: true,
        content: {
          'application/json': { schema: z.toJSONSchema(command.input, { io: 'input', unrepresentable: 'any' }) },
        },
      },
      responses: {
        200: { description: 'Accepted: the value and the log line.' },
        default: { description: 'Refused (RFC 9457).', content: { 'application/problem+json': {} } },
      },
    },
  };
}
