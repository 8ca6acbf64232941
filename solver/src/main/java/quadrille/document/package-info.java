/**
 * Documents in and out: located JSON, YAML and CSV, the faults that are collected while one is
 * read, JSON laid out for people, and files written whole or not at all. Knows nothing of teeth;
 * every other room may use it.
 *
 * <p>Begin with {@link quadrille.document.JsonDocument} and {@link quadrille.document.Node} to
 * read, {@link quadrille.document.Faults} for what is wrong.
 */
@NullMarked
package quadrille.document;

import org.jspecify.annotations.NullMarked;
