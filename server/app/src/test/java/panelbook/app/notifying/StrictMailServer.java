package panelbook.app.notifying;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/** As much of SMTP (RFC 5321) as it takes to refuse some addresses of a mail and to take the others. */
final class StrictMailServer implements AutoCloseable {

    private final ServerSocket socket;
    private final ExecutorService threads = Executors.newCachedThreadPool();

    /** What RCPT is answered for an address, when not 250. */
    final Map<String, String> answers = new ConcurrentHashMap<>();

    /** For each mail taken the addresses that it went to. */
    final List<List<String>> mails = Collections.synchronizedList(new ArrayList<>());

    StrictMailServer(int port) throws IOException {
        socket = new ServerSocket(port, 5, InetAddress.getByName("127.0.0.1"));
        threads.execute(this::accept);
    }

    private void accept() {
        while (!socket.isClosed()) {
            try (var caller = socket.accept()) {
                talk(caller);
            } catch (IOException over) {
                // the next caller
            }
        }
    }

    private void talk(Socket caller) throws IOException {
        var in = new BufferedReader(new InputStreamReader(caller.getInputStream(), StandardCharsets.US_ASCII));
        var to = new ArrayList<String>();
        say(caller, "220 strict");
        for (var line = in.readLine(); line != null; line = in.readLine()) {
            if (line.startsWith("RCPT TO:")) {
                var address = line.replaceAll("^RCPT TO:<([^>]*)>.*$", "$1");
                var answer = answers.getOrDefault(address, "250 fine");
                if (answer.startsWith("250")) {
                    to.add(address);
                }
                say(caller, answer);
            } else if (line.equals("DATA")) {
                say(caller, "354 go on");
                while (!".".equals(in.readLine())) {
                    // the text is of no interest here
                }
                mails.add(List.copyOf(to));
                say(caller, "250 taken");
            } else if (line.equals("QUIT")) {
                say(caller, "221 bye");
                return;
            } else {
                if (line.equals("RSET")) {
                    to.clear();
                }
                say(caller, "250 fine");
            }
        }
    }

    private static void say(Socket caller, String line) throws IOException {
        caller.getOutputStream().write((line + "\r\n").getBytes(StandardCharsets.US_ASCII));
    }

    @Override
    public void close() throws IOException {
        socket.close();
        threads.shutdownNow();
    }
}
