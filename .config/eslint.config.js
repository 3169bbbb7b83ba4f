import tseslint from 'typescript-eslint';

export default tseslint.config(
  { ignores: ['**/*.generated.js', '**/*.d.ts', 'dist/**'] },
  ...tseslint.configs.strictTypeChecked,
  ...tseslint.configs.stylisticTypeChecked,
  {
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: new URL('..', import.meta.url).pathname } },
    rules: {
      // numbers are printed all the time, by design with their unit
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      // an index that was just checked, with noUncheckedIndexedAccess on
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      // strings are spread by code point on purpose
      '@typescript-eslint/no-misused-spread': 'off',
      // numbers carry their unit as a mark of the type
      '@typescript-eslint/no-unsafe-unary-minus': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_', varsIgnorePattern: '^_' }],
      // nodes of a parser that asks for flags on the prototype
      '@typescript-eslint/class-literal-property-style': 'off',
      '@typescript-eslint/no-extraneous-class': ['error', { allowEmpty: true }],
      'no-restricted-syntax': [
        'error',
        { selector: "CallExpression[callee.object.name='process'][callee.property.name='exit']", message: 'set process.exitCode' },
      ],
      'no-console': 'error',
      eqeqeq: 'error',
    },
  },
  {
    // compiles the text of stepCode, in which nothing but row and column numbers stands
    files: ['src/driver/time-domain/rosenbrock-step.ts'],
    rules: { '@typescript-eslint/no-implied-eval': 'off' },
  },
  {
    files: ['tests/**/*.mjs'],
    ...tseslint.configs.disableTypeChecked,
  },
  { files: ['tests/**/*.mjs'], rules: { 'no-console': 'off' } },
);
