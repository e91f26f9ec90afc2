package panelbook.app.notifying;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/** A door before a server that lets some callers through, turns some away and cuts some off in the middle; seeded. */
final class FlakyDoor implements AutoCloseable {

    private static final int ANSWER_OF_A_MAIL_BYTES = 500;

    private final ServerSocket door;
    private final int behind;
    private final Random random;
    private final ExecutorService threads = Executors.newCachedThreadPool();
    private volatile boolean calm;

    FlakyDoor(int behind, long seed) throws IOException {
        this.door = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
        this.behind = behind;
        this.random = new Random(seed);
        threads.execute(this::accept);
    }

    int port() {
        return door.getLocalPort();
    }

    /** From now on everybody comes through. */
    void beCalm() {
        calm = true;
    }

    private void accept() {
        while (!door.isClosed()) {
            try {
                var caller = door.accept();
                var mood = calm ? 9 : random.nextInt(10);
                if (mood == 0) {
                    caller.close();
                } else {
                    // as many bytes of the server's answers, then the line is cut: before or after it took the mail
                    var bytes = mood < 4 ? random.nextInt(ANSWER_OF_A_MAIL_BYTES) : Integer.MAX_VALUE;
                    let(caller, bytes);
                }
            } catch (IOException e) {
                // the next caller may fare better
            }
        }
    }

    private void let(Socket caller, int bytes) throws IOException {
        var server = new Socket(InetAddress.getLoopbackAddress(), behind);
        var toServer = server.getOutputStream();
        var fromCaller = caller.getInputStream();
        var toCaller = caller.getOutputStream();
        var fromServer = server.getInputStream();
        threads.execute(() -> pump(fromCaller, toServer, Integer.MAX_VALUE, caller, server));
        threads.execute(() -> pump(fromServer, toCaller, bytes, caller, server));
    }

    private static void pump(InputStream from, OutputStream to, int most, Socket caller, Socket server) {
        try (caller;
                server) {
            for (var i = 0; i < most; i++) {
                var next = from.read();
                if (next < 0) {
                    return;
                }
                to.write(next);
            }
        } catch (IOException over) {
            // one side left
        }
    }

    @Override
    public void close() throws IOException {
        door.close();
        threads.shutdownNow();
    }
}
