/**
 * Diary files: read with the calendars that they name, and replaced only whole, only after the
 * audit, and only if the file is still the one that was read.
 */
@org.jspecify.annotations.NullMarked
package quadrille.diary.file;
