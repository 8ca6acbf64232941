/**
 * Diary files: read with the calendars that they name, and replaced only whole, only after the
 * audit, and only if the file is still the one that was read. Only the command line comes in.
 *
 * <p>Begin with {@link quadrille.diary.file.DiaryFile}.
 */
@NullMarked
package quadrille.diary.file;

import org.jspecify.annotations.NullMarked;
