# The page's three files, packed at build time (cmake/page.cmake says where); looked at by page.cpp.
.section .rodata
.global page_index_begin, page_index_end, page_script_begin, page_script_end, page_style_begin, page_style_end
page_index_begin: .incbin "index.html.gz"
page_index_end:
page_script_begin: .incbin "app.js.gz"
page_script_end:
page_style_begin: .incbin "app.css.gz"
page_style_end:
.section .note.GNU-stack,"",@progbits
