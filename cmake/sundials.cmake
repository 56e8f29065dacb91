# SUNDIALS CVODE and IDA, the references that our own schemes are held against and timed beside;
# what asks for them is built only where they are installed.
find_path(MASLIN_SUNDIALS_INCLUDE cvode/cvode.h)
find_library(MASLIN_SUNDIALS_CVODE sundials_cvode)
find_library(MASLIN_SUNDIALS_IDA sundials_ida)
find_library(MASLIN_SUNDIALS_VECTOR sundials_nvecserial)
find_library(MASLIN_SUNDIALS_SOLVER sundials_sunlinsoldense)
find_library(MASLIN_SUNDIALS_MATRIX sundials_sunmatrixdense)
set(MASLIN_HAS_SUNDIALS FALSE)
if(MASLIN_SUNDIALS_INCLUDE AND MASLIN_SUNDIALS_CVODE AND MASLIN_SUNDIALS_IDA
   AND MASLIN_SUNDIALS_VECTOR AND MASLIN_SUNDIALS_SOLVER AND MASLIN_SUNDIALS_MATRIX)
  set(MASLIN_HAS_SUNDIALS TRUE)
  # The distribution's headers want MPI's; the program makes no use of it.
  find_package(MPI QUIET COMPONENTS C)
endif()

function(maslin_use_sundials target)
  target_include_directories(${target} SYSTEM PRIVATE ${MASLIN_SUNDIALS_INCLUDE}
    ${MPI_C_INCLUDE_DIRS})
  target_compile_definitions(${target} PRIVATE OMPI_SKIP_MPICXX)
  target_link_libraries(${target} PRIVATE ${MASLIN_SUNDIALS_CVODE} ${MASLIN_SUNDIALS_IDA}
    ${MASLIN_SUNDIALS_VECTOR} ${MASLIN_SUNDIALS_SOLVER} ${MASLIN_SUNDIALS_MATRIX})
endfunction()
