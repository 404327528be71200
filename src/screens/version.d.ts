/** Version of the app, put in by the build. */
declare const __VERSION__: string;
