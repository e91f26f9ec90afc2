package panelbook.colorimetry.signal;

/** How code values stand for the signal from black to white. Source: ITU-R BT.2100-2 (2018), Table 9. */
public enum SignalRange {
    /** Black at code 0, white at the top code. */
    FULL {
        @Override
        int black(int bits) {
            return 0;
        }

        @Override
        int white(int bits) {
            return (1 << bits) - 1;
        }

        @Override
        int least(int bits) {
            return 0;
        }

        @Override
        int greatest(int bits) {
            return (1 << bits) - 1;
        }
    },
    /**
     * Black at 16 and white at 235 of 8 bits, times 2 per further bit. The codes that start with 8 zeros or 8 ones are
     * kept for timing references and are no video.
     */
    NARROW {
        @Override
        int black(int bits) {
            return 16 << (bits - 8);
        }

        @Override
        int white(int bits) {
            return 235 << (bits - 8);
        }

        @Override
        int least(int bits) {
            return 1 << (bits - 8);
        }

        @Override
        int greatest(int bits) {
            return (255 << (bits - 8)) - 1;
        }
    };

    abstract int black(int bits);

    abstract int white(int bits);

    abstract int least(int bits);

    abstract int greatest(int bits);
}
