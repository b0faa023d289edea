/* What a shared library of Android begins with: its handle, and functions that must know it. */
extern int __cxa_atexit(void (*)(void *), void *, void *);
extern void __cxa_finalize(void *);
extern int __register_atfork(void (*)(void), void (*)(void), void (*)(void), void *);

#define OWN __attribute__((visibility("hidden")))

OWN void *__dso_handle = &__dso_handle;

__attribute__((destructor)) static void on_unload(void) {
    __cxa_finalize(&__dso_handle);
}

OWN int atexit(void (*function)(void)) {
    return __cxa_atexit((void (*)(void *))function, 0, &__dso_handle);
}

OWN int pthread_atfork(void (*before)(void), void (*parent)(void), void (*child)(void)) {
    return __register_atfork(before, parent, child, &__dso_handle);
}
