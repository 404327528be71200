/**
 * The longest task of the page's own thread while something is done, by the browser's own record. Processor time: on a
 * machine that others use too the clock's time is theirs as well.
 * @param {import("playwright-core").Page} page
 * @param {() => Promise<unknown>} work
 * @returns {Promise<{ ms: number, tasks: number }>} how many tasks were recorded with their time; those of less than a
 *   microsecond come without one
 */
export const longestTask = async (page, work) => {
  const tools = await page.context().newCDPSession(page);
  const events = [];
  tools.on("Tracing.dataCollected", ({ value }) => {
    events.push(...value);
  });
  const over = new Promise((done) => tools.on("Tracing.tracingComplete", done));
  const traceConfig = { includedCategories: ["toplevel"] };
  await tools.send("Tracing.start", { transferMode: "ReportEvents", traceConfig });
  await work();
  await tools.send("Tracing.end");
  await over;
  await tools.detach();
  const mains = events.filter((e) => e.name === "thread_name" && e.args.name === "CrRendererMain");
  const own = (e) => mains.some((m) => m.pid === e.pid && m.tid === e.tid);
  const times = events
    .filter((e) => e.ph === "X" && /RunTask$/.test(e.name) && e.tdur !== undefined && own(e))
    .map((e) => e.tdur / 1000);
  return { ms: Math.max(0, ...times), tasks: times.length };
};
