package tracksoak.profiles;

/** Word length of one sample as it is stored in the file. Sample rates and word lengths follow AES5 practice. */
public enum SampleFormat {
    PCM_16(2, "16-bit"),
    PCM_24(3, "24-bit"),
    PCM_32(4, "32-bit"),
    FLOAT_32(4, "32-bit float");

    private final int bytesPerSample;
    private final String words;

    SampleFormat(int bytesPerSample, String words) {
        this.bytesPerSample = bytesPerSample;
        this.words = words;
    }

    /** Bytes one sample of one track takes in the file. */
    public int bytesPerSample() {
        return bytesPerSample;
    }

    /** As the trade says it, for example {@code 24-bit}. */
    public String words() {
        return words;
    }
}
