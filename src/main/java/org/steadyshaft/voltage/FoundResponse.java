package org.steadyshaft.voltage;

import org.hipparchus.complex.Complex;

/**
 * How lines come through, as it was found.
 *
 * @param response the likeliest
 * @param off one that is a standard deviation off
 * @param unasked share by which lines may be off, one standard deviation, where no line could be asked; else 0
 */
record FoundResponse(LineResponse response, LineResponse off, double unasked) {
    static final FoundResponse TRUE = unasked(0);

    static FoundResponse unasked(double share) {
        return new FoundResponse(LineResponse.TRUE, LineResponse.TRUE, share);
    }

    boolean isTrue() {
        return response == LineResponse.TRUE;
    }

    /**
     * By how much the doubt about the response moves a line that is fitted to both parts, as a share of the line.
     *
     * @param angleSquare mean square of what a unit of the line's angle part gives
     * @param levelSquare the same of its level part
     */
    double unsure(double hz, double angleSquare, double levelSquare) {
        if (isTrue()) {
            return unasked;
        }
        Complex angle = response.angle(hz);
        Complex level = response.level(hz);
        Complex read = angle.conjugate()
                .multiply(off.angle(hz))
                .multiply(angleSquare)
                .add(level.conjugate().multiply(off.level(hz)).multiply(levelSquare));
        double own = angleSquare * angle.norm() * angle.norm() + levelSquare * level.norm() * level.norm();
        double byLevel = levelSquare * level.norm() * level.norm() / own;
        return Math.hypot(read.divide(own).subtract(1).norm(), byLevel * response.vague());
    }
}
