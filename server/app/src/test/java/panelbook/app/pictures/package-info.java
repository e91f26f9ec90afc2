/** Drawings through the service's door, read back. */
package panelbook.app.pictures;
