import tseslint from 'typescript-eslint';

export default tseslint.config(
  {
    ignores: [
      'node_modules',
      'web/dist',
      'tests/output',
      '**/*.mjs',
      '**/*.cjs',
      'eslint.config.js',
    ],
  },
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      // `${number}` reads well and is what most of our wording is made of.
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/no-confusing-void-expression': [
        'error',
        { ignoreArrowShorthand: true, ignoreVoidReturningFunctions: true },
      ],
      // A cast to silence the compiler hides the shape that should change.
      '@typescript-eslint/consistent-type-assertions': ['error', { assertionStyle: 'never' }],
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      'no-console': 'error',
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      'prefer-const': 'error',
    },
  },
  {
    // Commands and the entry point speak to a terminal.
    files: ['server/commands/**', 'server/main.ts', 'server/run-until-stopped.ts', 'tests/**'],
    rules: { 'no-console': 'off' },
  },
  {
    // uPlot declares const enums that do not exist at run time: plain numbers are all there is.
    files: ['web/chart/plot.ts', 'tests/bench/chart/bare-plot.ts'],
    rules: { '@typescript-eslint/no-unsafe-enum-assignment': 'off' },
  },
  {
    // The test runner's own matchers (stringContaining and the like) are typed `any`.
    files: ['tests/**'],
    rules: { '@typescript-eslint/no-unsafe-assignment': 'off' },
  },
  {
    // A page draws when it comes to it: what is read of it once, and at once, may be what stood there before.
    files: ['tests/browser/**'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector:
            "CallExpression[callee.name='expect'] AwaitExpression > CallExpression[callee.property.name=/^(count|innerText|textContent|allTextContents|allInnerTexts|isVisible|isHidden|getAttribute|inputValue|isDisabled|isEnabled|isChecked|title)$/]",
          message: 'Ask until it is so: `await expect.poll(() => …)`.',
        },
      ],
    },
  },
);
