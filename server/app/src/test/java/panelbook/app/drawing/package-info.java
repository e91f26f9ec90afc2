/** Drawings, read back. */
package panelbook.app.drawing;
