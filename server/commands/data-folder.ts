/** Where the record is kept, unless another folder is named. */
import envPaths from 'env-paths';

export const DATA_FOLDER = envPaths('ebbline', { suffix: '' }).data;
