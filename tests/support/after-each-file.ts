/** Run by Vitest before each file of tests, also where many files share a worker and every other module is read once. */
import { afterAll } from 'vitest';
import { removeTempFolders } from './temp.ts';

afterAll(removeTempFolders);
