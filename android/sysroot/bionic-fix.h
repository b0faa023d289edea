/* The headers are musl's and the library is Android's: where they differ for what SQLite uses. */
#define __errno_location __errno
#include <unistd.h>
#undef _SC_PAGESIZE
#undef _SC_PAGE_SIZE
#define _SC_PAGESIZE 0x0027
#define _SC_PAGE_SIZE 0x0028
