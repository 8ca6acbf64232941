/**
 * Reading of documents: located JSON, and the faults that are collected while one is read. Knows
 * nothing of teeth; every other package may use it.
 */
@org.jspecify.annotations.NullMarked
package quadrille.document;
