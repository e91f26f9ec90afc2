package panelbook.demo;

import panelbook.wire.files.RunFile;
import panelbook.wire.files.RunFileFormat;

/**
 * A run of the demo.
 *
 * @param step when in the story it is uploaded
 * @param fileName where it is written, within the folder of its step
 * @param format in which format
 * @param run the run, with everything an upload needs
 */
public record DemoRun(DemoStep step, String fileName, RunFileFormat format, RunFile run) {}
