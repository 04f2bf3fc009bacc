/** Tests. */
@org.jspecify.annotations.NullMarked
package tracksoak.report.roster.web;
