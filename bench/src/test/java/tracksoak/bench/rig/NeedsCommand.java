package tracksoak.bench.rig;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.extension.ExtendWith;

/** The test runs only where these commands and files can be found; elsewhere it says so, and in CI it fails. */
@Target({ElementType.TYPE, ElementType.METHOD})
@Retention(RetentionPolicy.RUNTIME)
@ExtendWith(RigCondition.class)
public @interface NeedsCommand {

    /** Names of commands, looked up in PATH and in the system's sbin folders; or whole paths of files. */
    String[] value();
}
