package panelbook.app.access;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.Arrays;
import java.util.HexFormat;

/** Addresses that requests come from. */
final class Addresses {

    private static final int SITE_BYTES = 8;

    private Addresses() {}

    /** What one subscriber has at hand: an IPv4 address, or the first 64 bits of an IPv6 address (RFC 4291, 2.5.4). */
    static String neighbourhood(String address) {
        if (address.indexOf(':') < 0) {
            return address;
        }
        try {
            // with a colon it is never looked up as a name
            var bytes = InetAddress.getByName(address).getAddress();
            return HexFormat.of().formatHex(Arrays.copyOf(bytes, Math.min(SITE_BYTES, bytes.length)));
        } catch (UnknownHostException notAnAddress) {
            return address;
        }
    }
}
