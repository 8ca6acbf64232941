/**
 * Measurements that anyone can repeat, apart from the tests: {@code mvn -B -q -Pbenchmark -pl
 * solver test}. What they showed is in docs/benchmarks.md.
 */
@NullMarked
package quadrille.benchmark;

import org.jspecify.annotations.NullMarked;
