/** Whether a link or its fragment carries a setup, of whatever version and in whatever state; what it carries is read by `fromLink`. */
export const carriesSetup = (text: string): boolean => /#s=/.test(text);
