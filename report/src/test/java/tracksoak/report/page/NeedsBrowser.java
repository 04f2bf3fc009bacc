package tracksoak.report.page;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * The test opens pages in a real browser, the machine's own Chromium and Node, through {@link Windows} handed to its
 * constructor or method. Elsewhere it is skipped and says why; where the environment says {@code CI=true} it fails instead.
 */
@Target({ElementType.TYPE, ElementType.METHOD})
@Retention(RetentionPolicy.RUNTIME)
@Tag("browser")
@ExtendWith(BrowserSetUp.class)
public @interface NeedsBrowser {}
