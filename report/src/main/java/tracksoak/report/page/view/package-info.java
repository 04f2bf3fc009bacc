/** What the templates show: immutable, formatted, cleaned of invisible characters; escaped by the templates. */
@NullMarked
package tracksoak.report.page.view;

import org.jspecify.annotations.NullMarked;
