/**
 * How fast it is. JMH benchmarks of the library, and a program that loads a running service and, in the same run, the bare
 * database under it. Nothing in the product uses this; numbers go to DEVELOPERS.md with the command that made them.
 */
@NullMarked
package panelbook.bench;

import org.jspecify.annotations.NullMarked;
