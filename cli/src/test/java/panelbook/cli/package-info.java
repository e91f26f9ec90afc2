/** Tests of the command through its door: {@code Main.run}, with a terminal and without. */
package panelbook.cli;
