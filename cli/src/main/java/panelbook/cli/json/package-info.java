/**
 * JSON and records. Reads a tree of maps, lists and plain values into records and back, saying at which JSON pointer a
 * value does not fit. Knows no single record of the contract.
 */
@NullMarked
package panelbook.cli.json;

import org.jspecify.annotations.NullMarked;
