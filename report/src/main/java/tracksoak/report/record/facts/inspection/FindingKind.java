package tracksoak.report.record.facts.inspection;

/** What can be wrong with a recording. */
public enum FindingKind {
    HEADER_UNFINISHED("Header never finished"),
    HEADER_CUT("Header cut off"),
    FILE_CUT("File ends too early"),
    AUDIO_BEHIND("Audio behind the end"),
    BROKEN_SAMPLE("Ends inside a sample"),
    SHIFTED("Noise from here on"),
    OUTER_SIZE("Size in the header"),
    SPACE_LEFT("Space not given back"),
    EMPTY("No audio"),
    UNEQUAL_LENGTH("Tracks of unequal length"),
    UNEQUAL_START("Tracks that start apart"),
    GAP("Gap at a split"),
    OVERLAP("Overlap at a split"),
    SWAPPED("Splits out of order"),
    SEAM("Break at a split"),
    MISSING_SPLIT("Split missing"),
    UNLIKE_SPLITS("Splits of different formats"),
    ZEROS("Exact zeros inside audio"),
    ERASED("Erased blocks inside audio"),
    REPEATED_BLOCK("Repeated block"),
    NOT_A_NUMBER("Samples that are no number"),
    UNREADABLE("Unreadable blocks"),
    SHARED_PLACE("Two files in one place"),
    NOT_LOOKED_AT("Not looked into"),
    DIRTY("File system marked dirty"),
    MEDIA_FAILURE("Drive reported failures"),
    TABLES("Damaged file system"),
    SIGNAL_MISSING("Samples missing"),
    SIGNAL_REPEATED("Samples repeated"),
    SIGNAL_MOVED("Samples moved"),
    SIGNAL_SPOILT("Samples spoilt"),
    SIGNAL_PAUSED("Signal paused"),
    SIGNAL_RESTARTED("Signal started again"),
    SIGNAL_APART("Signal stands apart"),
    SIGNAL_ENDS("Signal ends early"),
    CLOCKS("Clocks differ"),
    SILENT("Silent track"),
    NO_SIGNAL("No test signal"),
    OTHER_TIMECODE("Other timecode"),
    UNCERTAIN("Files that may belong together");

    private final String title;

    FindingKind(String title) {
        this.title = title;
    }

    /** What it is called on a page. */
    public String title() {
        return title;
    }
}
