package tracksoak.bench.job;

import java.nio.file.Path;

/**
 * What a job may do, and where it keeps what it finds.
 *
 * @param allowSystem whether the drive may be the one this computer runs from
 * @param folder new folder of this computer for record and page
 */
public record JobTerms(boolean allowSystem, Path folder) {}
