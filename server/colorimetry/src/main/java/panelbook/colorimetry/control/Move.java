package panelbook.colorimetry.control;

import java.util.List;
import panelbook.colorimetry.uncertainty.Estimate;

/**
 * By how much figures moved at a step: one part for each kind of figure.
 *
 * @param parts with their standard uncertainties, one or two, independent of each other
 */
public record Move(List<Estimate> parts) {
    /** 95 % quantiles of chi-square with one and two degrees of freedom. Source: any table of them; from memory. */
    private static final double[] CHI_SQUARE_95 = {3.841, 5.991};

    /** Moves that differ by a smaller share of the greater are alike whatever the uncertainties say. House rule. */
    private static final double ALIKE_SHARE = 0.25;

    /** How two moves compare. */
    public enum Likeness {
        /** Both are real, and of one direction and size. */
        ALIKE,
        /** They differ by more than their uncertainties explain. */
        APART,
        /** The uncertainties leave both open. */
        UNTOLD
    }

    public Move {
        parts = List.copyOf(parts);
        if (parts.isEmpty() || parts.size() > CHI_SQUARE_95.length) {
            throw new IllegalArgumentException("a move has one or two parts, but here are " + parts.size());
        }
    }

    /**
     * How far it went.
     *
     * @return root of the sum of squares, with the uncertainty along its direction, that of the greatest part where it is
     *     zero. Source: JCGM 100:2008, 5.1.2, to first order
     */
    public Estimate length() {
        double length =
                Math.sqrt(parts.stream().mapToDouble(p -> p.value() * p.value()).sum());
        double variance = 0;
        double greatest = 0;
        for (Estimate part : parts) {
            double u = part.standardUncertainty();
            variance += length > 0 ? Math.pow(part.value() / length * u, 2) : 0;
            greatest = Math.max(greatest, u);
        }
        return new Estimate(length, length > 0 ? Math.sqrt(variance) : greatest);
    }

    /**
     * Whether it is more than its uncertainty explains.
     *
     * @return true when zero is rejected at 95 %
     */
    public boolean isReal() {
        return distance(null) > limit();
    }

    /**
     * Whether two displays moved alike. Each difference is held against the root of the sum of squares of both
     * uncertainties; a quarter of the greater is always allowed, since the same fault need not change two displays by the
     * very same share.
     *
     * @param other move of the same kinds of figures
     * @return the likeness; the same from either side. Sources: JCGM 100:2008, 5.1.2, for the uncertainty of a difference of
     *     independent estimates; the test of two of them at 95 % is in every handbook; the share is a house rule
     * @throws IllegalArgumentException when the moves differ in kinds
     */
    public Likeness like(Move other) {
        if (parts.size() != other.parts.size()) {
            throw new IllegalArgumentException("a move in " + parts.size()
                    + " kinds of figures does not compare with one in " + other.parts.size());
        }
        boolean apart = distance(other) > limit();
        if (isReal() && other.isReal() && sameWay(other) && (!apart || isNear(other))) {
            return Likeness.ALIKE;
        }
        return apart ? Likeness.APART : Likeness.UNTOLD;
    }

    private double limit() {
        return CHI_SQUARE_95[parts.size() - 1];
    }

    private boolean sameWay(Move other) {
        double dot = 0;
        for (int i = 0; i < parts.size(); i++) {
            dot += parts.get(i).value() * other.parts.get(i).value();
        }
        return dot > 0;
    }

    private boolean isNear(Move other) {
        double squares = 0;
        for (int i = 0; i < parts.size(); i++) {
            squares += Math.pow(parts.get(i).value() - other.parts.get(i).value(), 2);
        }
        double greater = Math.max(length().value(), other.length().value());
        return Math.sqrt(squares) <= ALIKE_SHARE * greater;
    }

    /** Squares of the differences over their variances; to zero when there is no other. */
    private double distance(@org.jspecify.annotations.Nullable Move other) {
        double sum = 0;
        for (int i = 0; i < parts.size(); i++) {
            Estimate a = parts.get(i);
            double difference =
                    a.value() - (other == null ? 0 : other.parts.get(i).value());
            double u = Math.hypot(
                    a.standardUncertainty(),
                    other == null ? 0 : other.parts.get(i).standardUncertainty());
            if (difference != 0) {
                sum += Math.pow(difference / u, 2);
            }
        }
        return sum;
    }
}
