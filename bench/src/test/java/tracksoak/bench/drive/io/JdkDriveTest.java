package tracksoak.bench.drive.io;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.drive.BuildFolder;
import tracksoak.bench.drive.system.SystemFiles;

/** The contract where the kernel's own calls cannot be made. */
class JdkDriveTest extends DriveContractTest {

    @TempDir(factory = BuildFolder.class)
    Path folder;

    @Override
    protected Drive emptyDrive() throws IOException {
        return RealDrive.open(folder, SystemFiles.HERE, false);
    }

    @Override
    protected boolean roomIsOurs() {
        return false;
    }
}
