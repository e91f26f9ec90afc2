package panelbook.cli.command;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;

/** Why a file cannot be read, in words. */
final class FileReasons {

    private FileReasons() {}

    static String of(IOException e) {
        if (e instanceof NoSuchFileException) {
            return "there is no such file. Check the name and the folder.";
        }
        if (e instanceof AccessDeniedException) {
            return "you may not read it. Check its permissions.";
        }
        return String.valueOf(e.getMessage());
    }
}
