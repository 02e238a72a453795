package org.steadyshaft.simulate;

/**
 * A commutator motor. Its flux constant k [V s], which turns current into torque (k i) and speed into back EMF (k w), comes
 * from the field current and saturates, k = k1 i / sqrt(1 + (i / is)^2), or is fixed where the field is fed apart or is a
 * magnet. SI units throughout.
 *
 * @param armatureResistance [ohm]
 * @param armatureInductance [H]
 * @param fieldResistance of a field in series [ohm]; 0 for a fixed field
 * @param fieldInductance of a field in series [H]; 0 for a fixed field
 * @param fluxPerAmpere k1 [V s / A]; 0 for a fixed field
 * @param saturationCurrent is [A], where the iron begins to saturate
 * @param fixedFlux k of a fixed field, or what remanence leaves in a series one [V s]
 * @param brushDrop voltage lost at the brushes while current flows [V]
 * @param inertia of everything that turns, seen from the motor's shaft [kg m^2]
 * @param dryFriction torque [N m]
 * @param viscousFriction [N m s]
 * @param fan torque for each squared rad/s [N m s^2]
 * @param roughness what makes it uneven over a turn and at a crawl
 */
public record Motor(
        double armatureResistance,
        double armatureInductance,
        double fieldResistance,
        double fieldInductance,
        double fluxPerAmpere,
        double saturationCurrent,
        double fixedFlux,
        double brushDrop,
        double inertia,
        double dryFriction,
        double viscousFriction,
        double fan,
        Roughness roughness) {
    /**
     * What makes a motor uneven.
     *
     * @param stiction torque by which it sticks at standstill beyond its dry friction [N m]; gone at a few rad/s
     * @param commutatorOrder swings of the flux constant a turn: the number of bars, twice that where it is odd; 0 for none
     * @param commutatorPercent size of those swings [% of the flux constant, 0 to peak]
     */
    public record Roughness(double stiction, double commutatorOrder, double commutatorPercent) {
        public static final Roughness NONE = new Roughness(0, 0, 0);

        public Roughness {
            if (!(stiction >= 0) || !(commutatorOrder >= 0) || !(commutatorPercent >= 0) || commutatorPercent > 50) {
                throw new IllegalArgumentException("stiction " + stiction + " N m, commutator of order "
                        + commutatorOrder + " and " + commutatorPercent + " %; expected 0 and more, at most 50 %");
            }
        }

        /** The flux constant at an angle over its mean. */
        double flux(double turns) {
            return commutatorPercent == 0
                    ? 1
                    : 1 + commutatorPercent / 100 * Math.cos(2 * Math.PI * commutatorOrder * turns);
        }
    }

    /** Dry friction rises over this speed [rad/s], so that it has no step at standstill. */
    private static final double CREEP = 0.5;

    /** Stiction falls to a third over this speed [rad/s] (common practice: grease and brushes let go within a turn or so). */
    private static final double LETS_GO = 3;

    public Motor {
        if (!(armatureResistance >= 0) || !(fieldResistance >= 0) || !(fieldInductance >= 0)) {
            throw new IllegalArgumentException("resistances and inductances must not be negative");
        }
        if (!(armatureInductance > 0) || !(inertia > 0) || !(saturationCurrent > 0)) {
            throw new IllegalArgumentException("armature inductance, inertia and saturation current must be above 0");
        }
        if (!(dryFriction >= 0) || !(viscousFriction >= 0) || !(fan >= 0) || !(brushDrop >= 0)) {
            throw new IllegalArgumentException("losses must not be negative");
        }
    }

    /** A motor that is even over its turn and does not stick. */
    public Motor(
            double armatureResistance,
            double armatureInductance,
            double fieldResistance,
            double fieldInductance,
            double fluxPerAmpere,
            double saturationCurrent,
            double fixedFlux,
            double brushDrop,
            double inertia,
            double dryFriction,
            double viscousFriction,
            double fan) {
        this(
                armatureResistance,
                armatureInductance,
                fieldResistance,
                fieldInductance,
                fluxPerAmpere,
                saturationCurrent,
                fixedFlux,
                brushDrop,
                inertia,
                dryFriction,
                viscousFriction,
                fan,
                Roughness.NONE);
    }

    /** Whether the field is in series with the armature. */
    public boolean isSeries() {
        return fluxPerAmpere > 0;
    }

    /** Flux constant [V s] at a field current [A]. */
    public double flux(double fieldCurrent) {
        return flux(fieldCurrent, 1);
    }

    /** The same where only a share of what is fixed is there. */
    double flux(double fieldCurrent, double fixedShare) {
        double share = fieldCurrent / saturationCurrent;
        return fixedShare * fixedFlux + fluxPerAmpere * fieldCurrent / Math.sqrt(1 + share * share);
    }

    /** Torque of friction and fan [N m] at an angular speed [rad/s]; has the sign of the speed. */
    public double drag(double angularSpeed) {
        double sticking =
                roughness.stiction == 0 ? 0 : roughness.stiction * Math.exp(-Math.abs(angularSpeed) / LETS_GO);
        return (dryFriction + sticking) * opposing(angularSpeed)
                + viscousFriction * angularSpeed
                + fan * angularSpeed * Math.abs(angularSpeed);
    }

    /** Between -1 and 1: the side a load that only resists takes at an angular speed [rad/s]. */
    double opposing(double angularSpeed) {
        return Math.tanh(angularSpeed / CREEP);
    }
}
