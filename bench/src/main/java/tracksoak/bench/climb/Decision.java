package tracksoak.bench.climb;

/** What a climb does next. */
public sealed interface Decision {

    /** Look at one rung. */
    record Look(Observation.Kind kind, int rung) implements Decision {}

    /**
     * Nothing more to do.
     *
     * @param margin the last rung with every margin met
     * @param loss the last rung before audio is lost; {@code NOT_ASKED} if nobody asked
     */
    record End(Edge margin, Edge loss) implements Decision {}
}
