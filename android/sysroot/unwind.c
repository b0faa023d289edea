/* Nothing is unwound: a panic aborts, and a backtrace is empty. */
typedef unsigned long word;

enum { END_OF_STACK = 5 };

int _Unwind_Backtrace(void *each, void *with) { (void)each; (void)with; return END_OF_STACK; }
word _Unwind_GetIP(void *context) { (void)context; return 0; }
word _Unwind_GetIPInfo(void *context, int *before) { (void)context; if (before) *before = 0; return 0; }
word _Unwind_GetCFA(void *context) { (void)context; return 0; }
word _Unwind_GetGR(void *context, int at) { (void)context; (void)at; return 0; }
void _Unwind_SetGR(void *context, int at, word value) { (void)context; (void)at; (void)value; }
void _Unwind_SetIP(void *context, word value) { (void)context; (void)value; }
word _Unwind_GetRegionStart(void *context) { (void)context; return 0; }
word _Unwind_GetTextRelBase(void *context) { (void)context; return 0; }
word _Unwind_GetDataRelBase(void *context) { (void)context; return 0; }
word _Unwind_GetLanguageSpecificData(void *context) { (void)context; return 0; }
void *_Unwind_FindEnclosingFunction(void *address) { (void)address; return 0; }
void _Unwind_DeleteException(void *exception) { (void)exception; }
void _Unwind_Resume(void *exception) { (void)exception; __builtin_trap(); }
int _Unwind_RaiseException(void *exception) { (void)exception; __builtin_trap(); }
