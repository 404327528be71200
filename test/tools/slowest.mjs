const COUNT = 10;

const seconds = (ms) => `${(ms / 1000).toFixed(1)} s`.padStart(9);

const list = (title, all) => {
  const slowest = all.sort((a, b) => b.ms - a.ms).slice(0, COUNT);
  console.log(`\n${title}`);
  for (const { ms, name } of slowest) console.log(`${seconds(ms)}  ${name}`);
};

/** A reporter of vitest: the slowest tests and the slowest files. */
export default class Slowest {
  /** @param {readonly import("vitest/node").TestModule[]} modules */
  onTestRunEnd(modules) {
    const files = modules.map((module) => ({
      ms: module.diagnostic().duration,
      name: module.relativeModuleId,
      tests: [...module.children.allTests()],
    }));
    const tests = files.flatMap(({ name, tests: own }) =>
      own.map((test) => ({ ms: test.diagnostic()?.duration ?? 0, name: `${name} > ${test.fullName}` })),
    );
    list("slowest tests", tests);
    list("slowest files", files);
  }
}
