/** Another sounding key by the capo alone. */
import { capoed, checkTransposed } from '../support/transposed.ts';

const check = (lesson: string, to: string, expected: string): void => checkTransposed(lesson, to, expected, capoed);

describe('the capo', () => {
  it('is put on, below tuning and key', () => {
    check(
      'lesson "a"\n\nkey G major\ntuning standard\nmeter 3/4\n\nprogression p\n  G | D\n',
      'Bb major',
      'lesson "a"\n\nkey G major\ntuning standard\ncapo 3\nmeter 3/4\n\nprogression p\n  G | D\n',
    );
  });
  it('is moved, counted from the key of the shapes', () => {
    check('key G major\ncapo 2\n', 'B major', 'key G major\ncapo 4\n');
    check('key G major\ncapo  2 ; low\n', 'Bb major', 'key G major\ncapo  3 ; low\n');
  });
  it('is taken off, and comes back', () => {
    check('key G major\ncapo 2\n', 'G major', 'key G major\nno capo\n');
    check('key G major\nno capo\n', 'A major', 'key G major\ncapo 2\n');
  });
  it('makes up for a tuning that lies lower as a whole', () => {
    check('key E minor\ntuning half-step-down\n', 'E minor', 'key E minor\ntuning half-step-down\ncapo 1\n');
    check('key E minor\ntuning half-step-down\n', 'Eb minor', 'key E minor\ntuning half-step-down\n');
  });
  it('cannot be moved where it leaves strings free', () => {
    check('key E minor\ncapo 2 on 5 4 3\n', 'F minor', 'key E minor\ncapo 2 on 5 4 3\ncapo: capo 2 on 5 4 3\n');
  });
  it('is told of where it leaves little of the neck, or where a part reaches beyond', () => {
    check(
      'key G major\nmelody m on 1\n  3 15\n',
      'F major',
      'key G major\ncapo 10\nmelody m on 1\n  3 15\ncapo: \nneck: m\n',
    );
    check('frets 5\nkey G major\n', 'F major', 'frets 5\nkey G major\ncapo: \n');
  });
  it('leaves a variant its own', () => {
    check('key G major\nvariant v\n  capo 3\n', 'A major', 'key G major\ncapo 2\nvariant v\n  capo 3\ncapo: capo 3\n');
  });
});
