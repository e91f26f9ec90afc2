package panelbook.colorimetry.signalpath;

/** Bounds of a free figure, both greater than zero; it is searched in its logarithm. */
record Box(double least, double most) {
    /** As in MINUIT (James and Roos, Comput. Phys. Commun. 10 (1975) 343): any real number falls within the bounds. */
    double inside(double unbounded) {
        double share = (1 + Math.sin(unbounded)) / 2;
        return least * Math.exp(share * Math.log(most / least));
    }

    /** The number that falls on a figure, which is moved a little inside, since on a bound the search sees no slope. */
    double unbounded(double figure) {
        double share = Math.log(Math.max(figure, Double.MIN_NORMAL) / least) / Math.log(most / least);
        return Math.asin(2 * Math.min(Math.max(share, 0.02), 0.98) - 1);
    }

    double middle() {
        return Math.sqrt(least * most);
    }
}
