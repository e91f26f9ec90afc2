package panelbook.cli.command;

import java.io.IOException;
import java.nio.file.Path;
import org.jline.reader.Candidate;
import org.jline.reader.EndOfFileException;
import org.jline.reader.LineReader;
import org.jline.reader.LineReaderBuilder;
import org.jline.reader.UserInterruptException;
import org.jline.reader.impl.DefaultParser;
import org.jline.terminal.Size;
import org.jline.terminal.Terminal;
import org.jline.terminal.TerminalBuilder;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.OwnFiles;
import panelbook.cli.terminal.Failure;

/**
 * A person at a terminal: lines with editing, completion and a history that the next session finds again. No colours, and
 * nothing that moves: the room is dark and somebody is looking at a picture. The only class that knows the library for it,
 * so that no other command loads that.
 */
final class MatchTerminal implements Lines {

    private static final int USUAL_WIDTH = 80;
    private static final int USUAL_HEIGHT = 24;

    private final Terminal terminal;
    private final LineReader reader;

    MatchTerminal(MatchCompletion completion, Path history) {
        try {
            OwnFiles.touched(history);
            terminal = TerminalBuilder.builder()
                    .system(true)
                    .provider("exec")
                    .dumb(true)
                    .build();
        } catch (IOException e) {
            throw Failure.failed(
                    "The terminal cannot be used (" + e.getMessage()
                            + "). Steps can also come from a file: panelbook match session MATCH < FILE",
                    e);
        }
        if (terminal.getWidth() <= 0) {
            terminal.setSize(new Size(USUAL_WIDTH, USUAL_HEIGHT)); // some do not say, and get no prompt then
        }
        var parser = new DefaultParser();
        parser.setEscapeChars(null);
        reader = LineReaderBuilder.builder()
                .terminal(terminal)
                .parser(parser)
                .completer((line, parsed, candidates) -> {
                    var before = parsed.words().subList(0, parsed.wordIndex());
                    var begun = parsed.word().substring(0, parsed.wordCursor());
                    completion.candidates(before, begun).forEach(word -> candidates.add(candidate(word)));
                })
                .variable(LineReader.HISTORY_FILE, history)
                .variable(LineReader.HISTORY_SIZE, 1000)
                .variable(LineReader.BELL_STYLE, "none")
                .variable(LineReader.COMPLETION_STYLE_STARTING, "bold") // empty means its own, which is coloured
                .option(LineReader.Option.DISABLE_EVENT_EXPANSION, true)
                .option(LineReader.Option.HISTORY_TIMESTAMPED, false)
                .option(LineReader.Option.AUTO_MENU, false)
                .option(LineReader.Option.AUTO_GROUP, false)
                .option(LineReader.Option.BRACKETED_PASTE, false)
                .build();
    }

    // a folder is gone on with, anything else is followed by a blank
    private static Candidate candidate(String word) {
        return new Candidate(word, word, null, null, null, null, !word.endsWith("/"));
    }

    @Override
    public @Nullable String next(String prompt) {
        try {
            return reader.readLine(prompt);
        } catch (UserInterruptException e) {
            return "";
        } catch (EndOfFileException e) {
            return null;
        }
    }

    @Override
    public @Nullable String ask(String question) {
        // an answer is no command that somebody would want back
        reader.setVariable(LineReader.DISABLE_HISTORY, true);
        try {
            return reader.readLine(question);
        } catch (UserInterruptException | EndOfFileException e) {
            throw Failure.failed("Left off; nothing was signed.", e);
        } finally {
            reader.setVariable(LineReader.DISABLE_HISTORY, false);
        }
    }

    @Override
    public void close() {
        try {
            reader.getHistory().save();
            terminal.close();
        } catch (IOException e) {
            return; // the history is a convenience, and the process ends
        }
    }
}
