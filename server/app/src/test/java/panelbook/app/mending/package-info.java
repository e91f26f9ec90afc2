/** Mistakes and what is left of them: a book in which one was put right, beside one in which it was never made. */
package panelbook.app.mending;
