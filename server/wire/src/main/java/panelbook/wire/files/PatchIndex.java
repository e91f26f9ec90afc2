package panelbook.wire.files;

/**
 * Finds the reading of a patch among up to some 300,000 in constant time and 8 to 16 bytes a reading: an open-addressed
 * table of places, the patches themselves staying in the caller's array (three codes a reading).
 */
final class PatchIndex {

    private int[] table = new int[128]; // place + 1, 0 for empty; the length is a power of two
    private int count;

    /** Place of the patch, or −1. */
    int find(int[] codes, int red, int green, int blue) {
        int slot = slot(red, green, blue);
        while (table[slot] != 0) {
            int at = 3 * (table[slot] - 1);
            if (codes[at] == red && codes[at + 1] == green && codes[at + 2] == blue) {
                return table[slot] - 1;
            }
            slot = (slot + 1) & (table.length - 1);
        }
        return -1;
    }

    /** Adds the patch at a place; it must not be there yet. */
    void add(int[] codes, int place) {
        if (2 * (count + 1) > table.length) {
            rehash(codes);
        }
        put(codes, place);
        count++;
    }

    private void rehash(int[] codes) {
        int[] old = table;
        table = new int[2 * old.length];
        for (int entry : old) {
            if (entry != 0) {
                put(codes, entry - 1);
            }
        }
    }

    private void put(int[] codes, int place) {
        int slot = slot(codes[3 * place], codes[3 * place + 1], codes[3 * place + 2]);
        while (table[slot] != 0) {
            slot = (slot + 1) & (table.length - 1);
        }
        table[slot] = place + 1;
    }

    private int slot(int red, int green, int blue) {
        long key = ((long) red << 32) ^ ((long) green << 16) ^ blue;
        long mixed = key * 0x9E3779B97F4A7C15L; // 2^64 over the golden ratio, Knuth, TAOCP vol. 3, 6.4
        return (int) (mixed >>> 40) & (table.length - 1);
    }
}
